package layout

import (
	"cmp"
	"slices"

	"tieover/score"
	"tieover/score/instrument"
)

// staffClef is the clef of a staff at the bar at hand, and those to come in the
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
