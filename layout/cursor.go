package layout

import (
	"tieover/layout/bar"
	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/beat"
	"tieover/score/peek"
)

// cursor reads one layer of one section bar by bar. It holds only what reaches
// into the current bar.
type cursor struct {
	layer  *score.Layer
	cycles *peek.Peeker[score.Cycle]

	cycle        score.Cycle // the latest begun; empty before the first
	attack       int         // of it, the next to read
	group        int         // of it, the next to read
	counted      int         // attacks of it counted into groups
	sounds       []sound
	groups       []wholeGroup
	starts, ends []score.Cycle // that start, and that end, since the bar's start
	open         bool          // the latest cycle has not ended
	named        bool          // its name and grouping have been printed over the voice that it shares
	share        share         // of the layer's chords
	byGroup      bool          // its spelling in the current meter
	side         []*cursor     // the layers that share a voice, read in its stead; nil for one layer
	plainVoice   bool          // no cycles or groups are shown: a composite, a free line
	frets        bool          // the part shows where its sounds are stopped
	words        *score.Words
	lines        int // of words between the staff and its own
	slurs        *score.Slurs
}

// sound is one attack, in section time.
type sound struct {
	bar.Segment // its part in a bar, but for times and ties
	at, end     beat.Time
}

// wholeGroup is one group in section time.
type wholeGroup struct {
	at, end beat.Time
	attacks int
	size    int // in pulses, as the spec has it
}

// newCursor reads layer i of the section.
func newCursor(s *score.Section, i int) *cursor {
	l := s.Layers[i]
	return &cursor{layer: l, plainVoice: l.Line != nil, words: l.Words(), slurs: l.Slurs(), cycles: peek.From(s.ReadCycles(i).Next)}
}

// layerFeed reads the player's layer of that name in each section that has one.
// (In another section a layer of that name may be somebody else's.) Its words are
// below so many lines of others.
func layerFeed(p *score.Piece, player score.Player, name string, lines int) feed {
	return func(section int) *cursor {
		for _, i := range player.Layers[section] {
			if p.Sections[section].Layers[i].Name == name {
				c := newCursor(p.Sections[section], i)
				c.lines = lines
				return c
			}
		}
		return nil
	}
}

// isComposite reports whether the cursor reads a composite, each attack of which is a
// cycle.
func (c *cursor) isComposite() bool { return c.layer.Of != nil }

// read moves on to the bar [from, to) and keeps what reaches into it. Calls
// come in time order and never overlap; bars may be left out.
func (c *cursor) read(from, to beat.Time) {
	if c.side != nil {
		c.readSide(from, to)
		return
	}
	c.drop(from)
	for {
		c.readGroups(to)
		c.readAttacks(from, to)
		next := c.cycles.Ahead()
		if next == nil || next.Start >= to {
			break
		}
		c.end(from, to)
		c.cycle, c.attack, c.group, c.counted = *next, 0, 0, 0
		c.cycles.Drop()
		c.open = !c.isComposite() // each of whose attacks is a cycle
		if c.open && c.cycle.Start >= from {
			c.starts = append(c.starts, c.cycle)
		}
	}
	c.end(from, to)
}

// end notes the end of the latest cycle if it is in the bar.
func (c *cursor) end(from, to beat.Time) {
	end := c.cycle.End()
	if !c.open || end > to {
		return
	}
	c.open = false
	if end > from {
		c.ends = append(c.ends, c.cycle)
	}
}

// drop forgets what ended before the bar.
func (c *cursor) drop(from beat.Time) {
	c.starts, c.ends = c.starts[:0], c.ends[:0]
	sounds, groups := c.sounds[:0], c.groups[:0]
	for i := range c.sounds {
		if s := &c.sounds[i]; s.end > from {
			sounds = append(sounds, *s)
		}
	}
	for _, g := range c.groups {
		if g.end > from {
			groups = append(groups, g)
		}
	}
	c.sounds, c.groups = sounds, groups
}

// readGroups takes in the groups of the cycle that begin before to. A tail
// prolongs the group that a shift laid over the cycle's edge.
func (c *cursor) readGroups(to beat.Time) {
	cy := &c.cycle
	for ; c.group < len(cy.Groups); c.group++ {
		g := &cy.Groups[c.group]
		at, end := cy.Start+g.At, cy.Start+min(g.At+g.Length, cy.Sounds)
		if at >= to || end <= at {
			return
		}
		n := 0
		for ; c.counted < len(cy.Attacks) && cy.Attacks[c.counted].Group <= c.group; c.counted++ {
			n++
		}
		if last := len(c.groups) - 1; g.Tail && last >= 0 && c.groups[last].end == at {
			c.groups[last].end = end
			c.groups[last].attacks += n
			continue
		}
		c.groups = append(c.groups, wholeGroup{at, end, n, g.Size})
	}
}

// readAttacks takes in the attacks of the cycle that begin before to.
func (c *cursor) readAttacks(from, to beat.Time) {
	cy := &c.cycle
	for ; c.attack < len(cy.Attacks); c.attack++ {
		a := &cy.Attacks[c.attack]
		at := cy.Start + a.At
		if at >= to {
			return
		}
		s := sound{at: at, end: at + a.Length, Segment: bar.Segment{Tones: a.Tones, Graces: a.Graces, Accent: a.Accent, Touch: a.Touch,
			Lyrics: below(c.lines, c.words.Next(cy, a)), Slur: c.slurs.Next(cy, c.attack)}}
		if at < c.layer.Enters || s.end <= from || !c.share.take(&s) {
			continue
		}
		if c.layer.Tails == score.CutTails && at >= from && !s.Touch.Has(score.Rolled) {
			s.end = min(s.end, to)
		}
		if a.Group >= 0 && a.Group < len(cy.Groups) {
			g := &cy.Groups[a.Group]
			if g.At == a.At && !g.Tail && !c.share.other {
				s.Group = g.Size
			}
		}
		if c.frets {
			s.Hand = a.Hand
		}
		c.sounds = append(c.sounds, s)
	}
}

// fill writes what reaches into the bar [from, to) as a voice's input.
func (c *cursor) fill(v *bar.VoiceInput, from, to beat.Time) {
	v.Pulse, v.Unit, v.Dry = c.layer.Pulse, c.layer.Unit, c.joined() || c.layer.Tails == score.CutTails
	v.Segments, v.Groups, v.Cycles = v.Segments[:0], v.Groups[:0], v.Cycles[:0]
	if len(c.sounds) == 0 {
		return
	}
	for i := range c.sounds {
		s := &c.sounds[i]
		v.Segments = append(v.Segments, s.Segment)
		segment := &v.Segments[len(v.Segments)-1]
		segment.At, segment.TieIn, segment.TieOut = max(s.at, from)-from, s.at < from, s.end > to
		segment.Length = min(s.end, to) - from - segment.At
		if segment.TieIn { // what belongs to the beginning of the sound is written there
			segment.Graces, segment.Accent, segment.Faint, segment.Group, segment.Lyrics = nil, false, nil, 0, nil
			segment.Touch &= sheet.Stroked
		}
	}
	if c.joined() { // beamed by the meter
		return
	}
	for _, g := range c.groups {
		v.Groups = append(v.Groups, bar.GroupPart{At: inPhase(g.at-from, v.Unit), End: min(g.end-from, to-from+1), Lone: g.attacks <= 1})
	}
	for i := range c.starts {
		if !c.plainVoice {
			v.Cycles = append(v.Cycles, c.starts[i].Start-from)
		}
	}
}

// inPhase shortens how far a group reaches back over the barline to at most one
// pulse: more makes no difference in the bar, but the place of its pulses does.
func inPhase(at, unit beat.Time) beat.Time {
	if at >= 0 {
		return at
	}
	return (at+1)%unit - 1
}

// below moves words down by so many lines.
func below(lines int, words []score.Lyric) []score.Lyric {
	if lines == 0 || words == nil {
		return words
	}
	return append(make([]score.Lyric, lines), words...)
}
