package layout

import (
	"cmp"
	"slices"

	"tieover/layout/bar"
	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/instrument"
)

// staffClef is the clef of a staff at the current bar, and those to come in the
// section.
type staffClef struct {
	now    instrument.Clef
	coming []score.ClefAt
}

// enterClefs begins a section's clefs. A staff on which nobody plays in it keeps
// its own, as does a staff of rhythm, whoever plays that.
func (w *partWalk) enterClefs(s *score.Section) {
	if !w.plan.Pitched {
		return
	}
	for k := range w.clefs {
		c := &w.clefs[k]
		c.coming = nil
		usual := true
		for _, i := range w.plan.player.Layers[w.section] {
			l := s.Layers[i]
			if w.plan.StaffOf(l.Name) != k+1 {
				continue
			}
			if usual {
				c.now, usual = w.plan.Staves[k].Clef, false
			}
			c.coming = append(c.coming, s.Clefs(l)...)
		}
		slices.SortStableFunc(c.coming, func(a, b score.ClefAt) int { return cmp.Compare(a.Time, b.Time) })
	}
}

// clefsFor finds the clefs of the bar, and reports whether they are to be written:
// where one is new, and at the beginning of what is repeated from another.
func (w *partWalk) clefsFor(fb *frameBar) (written bool) {
	for k := range w.clefs {
		c := &w.clefs[k]
		written = written || fb.again && (len(c.coming) > 1 || !fb.newSection && len(c.coming) > 0)
		for len(c.coming) > 0 && c.coming[0].Time <= fb.from {
			c.now, c.coming = c.coming[0].Clef, c.coming[1:]
		}
		if k >= len(w.in.Clefs) || w.in.Clefs[k] != c.now {
			written = true
		}
	}
	if !written {
		return false
	}
	w.in.Clefs = nil // measures keep the one before
	for _, c := range w.clefs {
		w.in.Clefs = append(w.in.Clefs, c.now)
	}
	return true
}

func sameClefs(a, b *partPlan) bool {
	return slices.EqualFunc(a.Staves, b.Staves, func(s, t sheet.Staff) bool { return s.Clef == t.Clef })
}

// keyFor takes up the key of the bar, and reports whether its signature is written.
func (w *partWalk) keyFor(fb *frameBar, before *partPlan, turned bool) (written bool) {
	if !fb.newSection && !fb.newKey && !turned {
		return false
	}
	wanted := w.plan.wanted
	wanted.KeyOf(fb.key)
	w.writer.Wanted, w.spelling, w.altered = wanted, &wanted, nil
	return fb.printsKey || turned && (!w.in.Key.LooksLike(wanted.Key) || w.plan.Pitched && !before.Pitched) ||
		w.restates(fb, func(a, b *partPlan) bool { return a.wanted == b.wanted })
}

// spellTies keeps a note that is tied into another key as it was spelled where
// it began.
func (w *partWalk) spellTies(segments []bar.Segment, st *voiceState) {
	if first := &segments[0]; first.TieIn && st.spelling != w.spelling {
		first.Spelling = st.spelling
	}
	if last := &segments[len(segments)-1]; last.TieOut && last.Spelling == nil {
		st.spelling = w.spelling
	}
}

// alteredTieIn reports whether a note tied into the bar has a sign that the key
// does not have.
func (w *partWalk) alteredTieIn() bool {
	for i := range w.in.Voices {
		v := &w.in.Voices[i]
		if len(v.Segments) == 0 || !v.Segments[0].TieIn {
			continue
		}
		for _, h := range w.writer.Heads(&v.Segments[0], v.Voice.Bare) {
			if h.Step != 0 && h.Alter != sheet.KeyAlter(w.in.Key, h.Step) {
				return true
			}
		}
	}
	return false
}
