package layout

import (
	"cmp"
	"slices"

	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/beat"
)

// dynamics prints the layer's dynamics: with what it plays, never at a rest.
// One that falls into its silence waits for the next attack, where only the last
// of several is printed; after four bars or more of rest it is printed again.
func (w *partWalk) dynamics(fb *frameBar, i int, c *cursor, st *voiceState) {
	w.hairpins(fb, i, st)
	for k := range c.sounds {
		s := &c.sounds[k]
		if s.at < fb.from {
			st.silent = s.end
			continue
		}
		w.dynamicsBefore(fb, i, st, s.at)
		if st.heard && s.at-st.silent >= 4*(fb.to-fb.from) {
			st.reprint = true
		}
		for len(st.dynamics) > 0 && st.dynamics[0].Time <= s.at {
			st.dynamic, st.reprint, st.dynamics = st.dynamics[0].Text, true, st.dynamics[1:]
		}
		if st.reprint && st.dynamic != "" {
			w.dynamic(fb, s.at, i, st.dynamic)
		}
		st.reprint, st.heard, st.silent = false, true, s.end
	}
	w.dynamicsBefore(fb, i, st, fb.to)
}

// dynamicsBefore prints the dynamics before a moment that fall into what sounds,
// and keeps the last of the others.
func (w *partWalk) dynamicsBefore(fb *frameBar, i int, st *voiceState, to beat.Time) {
	for len(st.dynamics) > 0 && st.dynamics[0].Time < to {
		d := st.dynamics[0]
		st.dynamics = st.dynamics[1:]
		st.dynamic, st.reprint = d.Text, d.Time < fb.from || d.Time >= st.silent
		if !st.reprint {
			w.dynamic(fb, d.Time, i, d.Text)
		}
	}
}

// dynamic prints one sign, once for all voices of the part that have it at that
// moment: both hands of a keyboard read it below the upper staff.
func (w *partWalk) dynamic(fb *frameBar, at beat.Time, voice int, text string) {
	sign := score.Dynamic{Time: at, Text: text}
	if slices.Contains(w.signs, sign) {
		return
	}
	w.signs = append(w.signs, sign)
	w.put(fb, at, sheet.Mark{Kind: sheet.DynamicMark, Voice: voice, Text: text})
}

// hairpins opens and closes the layer's hairpins that begin or end in the bar.
func (w *partWalk) hairpins(fb *frameBar, i int, st *voiceState) {
	for len(st.hairpins) > 0 && st.hairpins[0].from < fb.to {
		h := &st.hairpins[0]
		if !h.open {
			h.open = true
			w.put(fb, h.from, sheet.Mark{Kind: sheet.HairpinStart, Voice: i, N: h.kind})
		}
		if h.to > fb.to {
			return
		}
		w.put(fb, h.to, sheet.Mark{Kind: sheet.HairpinStop, Voice: i})
		st.hairpins = st.hairpins[1:]
	}
}

// hairpin is one that is printed: from a sound to the end of a sound, in section
// time.
type hairpin struct {
	from, to beat.Time
	kind     int       // 1 opens, 2 closes
	voice    int       // of its first sound
	attacks  int       // moments at which something is struck
	last     beat.Time // of them
	held     bool      // some sound can grow by itself
	open     bool
}

// same reports whether two hairpins look alike.
func (h hairpin) same(other hairpin) bool {
	return h.from == other.from && h.to == other.to && h.kind == other.kind
}

// enterHairpins gives the voices of a section their hairpins. The voices of a staff have
// each once together, in the voice that sounds first in it, and two staves not the same.
func (w *partWalk) enterHairpins(section int) {
	for staff := range w.plan.Staves {
		var voices []int
		for i, c := range w.cursors {
			if c != nil && !c.share.other && w.plan.Voices[i].Staff == staff+1 {
				voices = append(voices, i)
			}
		}
		for _, h := range w.hairpinsOf(section, voices) {
			if !slices.ContainsFunc(w.voices, func(other voiceState) bool { return slices.ContainsFunc(other.hairpins, h.same) }) {
				w.voices[h.voice].hairpins = append(w.voices[h.voice].hairpins, h)
			}
		}
	}
	for i := range w.voices { // a voice has one at a time
		all := w.voices[i].hairpins
		for k := 1; k < len(all); k++ {
			all[k-1].to = min(all[k-1].to, all[k].from)
		}
		w.voices[i].hairpins = slices.DeleteFunc(all, func(h hairpin) bool { return h.to <= h.from })
	}
}

// hairpinsOf cuts the plan's hairpins for the voices of a staff to what they play: each
// from the first attack in it to the last sound, or from what sounds where it begins.
// A whole bar of rest breaks it. Two attacks are needed, or a quarter's length that is
// held; where no piece has either, the longest is printed, for it sounds.
func (w *partWalk) hairpinsOf(section int, voices []int) (all []hairpin) {
	s := w.p.Sections[section]
	planned, end := w.plannedFor(s, voices)
	if planned == nil {
		return nil
	}
	ahead := make([]*cursor, len(w.cursors))
	for _, i := range voices {
		ahead[i] = w.plan.feeds[i](section)
	}
	var heard []heardSound
	for bar := range s.Bars() {
		if bar.Start >= end {
			break
		}
		heard = heard[:0]
		for _, i := range voices {
			ahead[i].read(bar.Start, bar.End())
			for _, sound := range ahead[i].sounds {
				heard = append(heard, heardSound{sound.at, sound.end, i, ahead[i].holds(sound)})
			}
		}
		slices.SortStableFunc(heard, func(a, b heardSound) int { return cmp.Compare(a.at, b.at) })
		for k := range planned {
			planned[k].read(bar.Start, heard)
		}
	}
	quarter := w.p.Grid.Must(beat.Of(1, 4))
	for _, h := range planned {
		printed := slices.DeleteFunc(slices.Clone(h.made), func(h hairpin) bool { return h.attacks <= 1 && (!h.held || h.to-h.from < quarter) })
		if len(printed) == 0 && len(h.made) > 0 {
			printed = append(printed, slices.MaxFunc(h.made, func(a, b hairpin) int { return cmp.Compare(a.to-a.from, b.to-b.from) }))
		}
		all = append(all, printed...)
	}
	slices.SortStableFunc(all, func(a, b hairpin) int { return cmp.Compare(a.from, b.from) })
	return all
}

// plannedHairpin is one of the plan's while the voices of a staff are read.
type plannedHairpin struct {
	from   beat.Time
	kind   int
	to     []beat.Time // by voice, where its next one begins at the latest; from for a voice that it is not for
	made   []hairpin
	silent bool // a bar of rest since the sound before
}

// heardSound is one sound of a voice.
type heardSound struct {
	at, end beat.Time
	voice   int
	held    bool
}

// plannedFor lists the plan's hairpins for some voices, and the end of the last.
func (w *partWalk) plannedFor(s *score.Section, voices []int) (planned []plannedHairpin, end beat.Time) {
	for k := range s.Plan {
		e := &s.Plan[k]
		h := plannedHairpin{from: e.Time, kind: 1, to: slices.Repeat([]beat.Time{e.Time}, len(w.cursors))}
		if e.Hairpin == score.Diminuendo {
			h.kind = 2
		}
		any := false
		for _, i := range voices {
			if w.cursors[i].any(e.Swells) {
				any = true
				h.to[i] = e.ToTime
				for _, before := range planned {
					before.to[i] = min(before.to[i], e.Time)
				}
			}
		}
		if any {
			planned, end = append(planned, h), max(end, e.ToTime)
		}
	}
	return planned, end
}

// read makes the hairpin reach over what its voices play in a bar, in time order.
func (h *plannedHairpin) read(start beat.Time, heard []heardSound) {
	rests := true
	for _, s := range heard {
		if h.to[s.voice] <= h.from {
			continue
		}
		if rests = false; s.at >= start {
			h.hear(s)
			h.silent = false
		}
	}
	h.silent = h.silent || rests
}

// hear makes the hairpin reach over one more sound. One that is not held matters only
// where it is struck.
func (h *plannedHairpin) hear(s heardSound) {
	from, to := max(h.from, s.at), min(h.to[s.voice], s.end)
	if from >= to || !s.held && s.at < h.from {
		return
	}
	if len(h.made) == 0 || h.silent {
		h.made = append(h.made, hairpin{from: from, to: to, kind: h.kind, voice: s.voice})
	}
	now := &h.made[len(h.made)-1]
	now.to, now.held = max(now.to, to), now.held || s.held
	if s.at >= h.from && (now.attacks == 0 || s.at > now.last) {
		now.attacks, now.last = now.attacks+1, s.at
	}
}

// holds reports whether a sound lasts, so that it can grow.
func (c *cursor) holds(s sound) bool {
	dry := func(l *score.Layer) bool { return l.Tails == score.CutTails }
	if of := c.layer.Of; of != nil {
		return slices.ContainsFunc(of, func(l *score.Layer) bool { return !dry(l) })
	}
	return s.Touch.Has(score.Rolled) || !c.joined() && !dry(c.layer)
}
