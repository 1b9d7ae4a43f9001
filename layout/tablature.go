package layout

import (
	"fmt"

	"tieover/layout/bar"
	"tieover/layout/sheet"
	"tieover/score/fingering"
	"tieover/score/instrument"
)

// tablature puts a staff of strings below the one of notes, if the player has tablature:
// it shows the same notes by strings and frets.
func (pt *part) tablature() {
	for i, s := range pt.p.Sections {
		for _, j := range pt.plan.player.Layers[i] {
			if tuning := s.Layers[j].Tuning; tuning != nil {
				clef := instrument.Clef{Sign: instrument.Tab, Line: 5}
				pt.plan.usual = append(pt.plan.usual, clef)
				pt.plan.staves = append(pt.plan.staves, sheet.Staff{Clef: clef, Lines: len(tuning), Tuning: tuning})
				pt.frets = true
				return
			}
		}
	}
}

// oneHand sees to it that what several layers of a player strike together can be held:
// each tone on a string of its own, one tone of both layers being one stroke, and stopped
// within four frets. Each two layers are told once.
func (w *partWalk) oneHand(fb *frameBar) {
	if !w.frets || w.problems == nil || w.lenient {
		return
	}
	for i := range w.in.Voices {
		for k := range i {
			w.heldTogether(fb, k, i)
		}
	}
}

func (w *partWalk) heldTogether(fb *frameBar, a, b int) {
	v, u := &w.in.Voices[a], &w.in.Voices[b]
	both := v.Voice.Layer + "\x00" + u.Voice.Layer + "\x00"
	if w.told[both] {
		return
	}
	for i := range v.Segments {
		for k := range u.Segments {
			s, t := &v.Segments[i], &u.Segments[k]
			if s.At != t.At || s.TieIn || t.TieIn || s.Hand == nil || t.Hand == nil {
				continue
			}
			if what := clash(s, t); what != "" && w.once(both) {
				w.problems.Add(w.cursors[b].layer.Pos, fmt.Sprintf("%v: what %s and %s strike together, %v and %v, is %s",
					fb.s.Where(fb.from+s.At), v.Voice.Layer, u.Voice.Layer, s.Tones, t.Tones, what), "change an octave, give them two players, or remove tab")
			}
		}
	}
}

// clash says why two attacks cannot be held by one hand, "" if they can.
func clash(a, b *bar.Segment) string {
	low, high := int8(fingering.Frets+1), int8(0)
	for _, s := range a.Hand.Struck {
		for _, t := range b.Hand.Struck {
			if s.String == t.String && s.Fret != t.Fret {
				return fmt.Sprintf("on string %d twice", s.String)
			}
		}
	}
	for _, h := range []*fingering.Hand{a.Hand, b.Hand} {
		for _, s := range h.Struck {
			if s.Fret > 0 {
				low, high = min(low, s.Fret), max(high, s.Fret)
			}
		}
	}
	if high-low >= fingering.Reach {
		return fmt.Sprintf("at frets %d and %d, too far for one hand", low, high)
	}
	return ""
}
