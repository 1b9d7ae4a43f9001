package layout

import (
	"cmp"
	"slices"

	"tieover/score"
	"tieover/score/beat"
)

// sideFeed reads the player's layers of these names as one voice, each one's words
// below so many lines of others.
func sideFeed(p *score.Piece, player score.Player, names []string, lines map[string]int) feed {
	return func(section int) *cursor {
		var c *cursor
		for _, name := range names {
			one := layerFeed(p, player, name, lines[name])(section)
			if one == nil {
				continue
			}
			if c == nil {
				c = &cursor{layer: one.layer, plainVoice: one.plainVoice}
			}
			c.side = append(c.side, one)
		}
		return c
	}
}

// layers are those that the cursor reads, the first of a side first.
func (c *cursor) layers() []*score.Layer {
	if c.side == nil {
		return []*score.Layer{c.layer}
	}
	var all []*score.Layer
	for _, one := range c.side {
		all = append(all, one.layer)
	}
	return all
}

// any reports whether one of the layers is such.
func (c *cursor) any(is func(*score.Layer) bool) bool {
	if c.side == nil {
		return is(c.layer)
	}
	return slices.ContainsFunc(c.side, func(one *cursor) bool { return is(one.layer) })
}

// joined reports whether several layers share the voice in this section.
func (c *cursor) joined() bool { return len(c.side) > 1 }

// readSide reads the bar [from, to) of each layer of a side. What is struck
// together is one sound with all the tones; it lasts as the longest of them, but
// never into the side's next attack or the next bar. Cycles and groups are those
// of the first layer.
func (c *cursor) readSide(from, to beat.Time) {
	c.sounds = c.sounds[:0]
	for _, one := range c.side {
		one.read(from, to)
		for _, s := range one.sounds {
			if s.at < from && c.joined() {
				continue
			}
			s.Layers = []string{one.layer.Name}
			if one != c.side[0] {
				s.Group = 0
			}
			c.sounds = append(c.sounds, s)
		}
	}
	lead := c.side[0]
	c.starts, c.ends, c.groups = lead.starts, lead.ends, lead.groups
	if !c.joined() {
		return
	}
	slices.SortStableFunc(c.sounds, func(a, b sound) int { return cmp.Compare(a.at, b.at) })
	c.sounds = together(c.sounds)
	for i := range c.sounds {
		next := to
		if i+1 < len(c.sounds) {
			next = c.sounds[i+1].at
		}
		c.sounds[i].end = min(c.sounds[i].end, next)
	}
}

// together joins the sounds of each moment. Accents, dots and dashes belong to the stem,
// and so are those of all; parentheses belong to the heads of the ghost notes alone.
func together(sounds []sound) []sound {
	joined := sounds[:0]
	for _, s := range sounds {
		last := len(joined) - 1
		if last < 0 || joined[last].at != s.at {
			joined = append(joined, s)
			continue
		}
		to := &joined[last]
		to.end = max(to.end, s.end)
		to.Accent = to.Accent || s.Accent
		joinTouch(to, &s)
		to.Group = cmp.Or(to.Group, s.Group)
		to.Graces = graced(to.Graces, s.Graces)
		to.Lyrics = sungTogether(to.Lyrics, s.Lyrics)
		to.Layers = append(to.Layers, s.Layers...)
		to.Tones = withTones(to.Tones, s.Tones)
	}
	return joined
}

// joinTouch gives a sound the touch of another one beside its own. What both strike
// is faint only if both strike it so.
func joinTouch(to, other *sound) {
	faint := slices.Concat(to.ghosts(), other.ghosts())
	faint = slices.DeleteFunc(faint, func(t score.Tone) bool { return to.strikes(t) || other.strikes(t) })
	ghost := to.Touch & other.Touch & score.Ghost
	if to.Touch = (to.Touch|other.Touch)&^score.Ghost | ghost; ghost == score.Plain {
		to.Faint = faint
	}
}

// ghosts are the tones that are played faintly.
func (s *sound) ghosts() score.Chord {
	if s.Touch.Has(score.Ghost) {
		return s.Tones
	}
	return s.Faint
}

// strikes reports whether a tone is among the sound's and is no ghost note.
func (s *sound) strikes(t score.Tone) bool {
	return slices.Contains(s.Tones, t) && !slices.Contains(s.ghosts(), t)
}

// withTones adds to a chord the tones of another that it does not have.
func withTones(chord, other score.Chord) score.Chord {
	all := slices.Clone(chord)
	for _, t := range other {
		if !slices.Contains(all, t) {
			all = append(all, t)
		}
	}
	slices.SortFunc(all, score.Tone.Compare)
	return all
}

// graced joins the grace notes of two sounds of one moment, the last of each
// together.
func graced(a, b []score.Chord) []score.Chord {
	if len(a) < len(b) {
		a, b = b, a
	}
	joined := slices.Clone(a)
	for i, chord := range b {
		to := &joined[len(a)-len(b)+i]
		*to = withTones(*to, chord)
	}
	return joined
}

// sungTogether joins the words of two sounds of one moment, which have no line in common.
func sungTogether(a, b []score.Lyric) []score.Lyric {
	if len(a) < len(b) {
		a, b = b, a
	}
	if len(b) == 0 {
		return a
	}
	joined := slices.Clone(a)
	for line, y := range b {
		if y != (score.Lyric{}) {
			joined[line] = y
		}
	}
	return joined
}

// dynamicsOf lists the dynamics of all layers of a voice, each once.
func dynamicsOf(s *score.Section, c *cursor) (all []score.Dynamic) {
	if !c.joined() {
		return s.Dynamics(c.layer)
	}
	for _, one := range c.side {
		for _, d := range s.Dynamics(one.layer) {
			if !slices.Contains(all, d) {
				all = append(all, d)
			}
		}
	}
	slices.SortStableFunc(all, func(a, b score.Dynamic) int { return cmp.Compare(a.Time, b.Time) })
	return all
}
