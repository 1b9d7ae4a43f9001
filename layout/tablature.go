package layout

import (
	"fmt"

	"tieover/layout/bar"
	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/beat"
	"tieover/score/fingering"
	"tieover/score/instrument"
)

// tuningOf is how the strings of a player's tablature are tuned; nil without.
func tuningOf(p *score.Piece, player score.Player) []score.Tone {
	for _, l := range p.LayersOf(player) {
		if l.Tuning != nil {
			return l.Tuning
		}
	}
	return nil
}

// tablature puts a staff of strings below the one of notes, if the player has tablature:
// it shows the same notes by strings and frets.
func (pt *part) tablature() {
	if tuning := tuningOf(pt.p, pt.plan.player); tuning != nil {
		pt.plan.Staves = append(pt.plan.Staves, sheet.Staff{Clef: instrument.Clef{Sign: instrument.Tab, Line: 5}, Lines: len(tuning), Tuning: tuning})
		pt.frets = true
	}
}

// oneHand sees to it that what several layers of a player strike together can be held:
// each tone on a string of its own, one tone of both layers being one stroke, and stopped
// within four frets; and that none strikes a string that another still holds at another
// fret. Of each two layers the first clash is reported.
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
	if w.reported[both] {
		return
	}
	report := func(at beat.Time, hint, format string, args ...any) {
		if w.firstTime(both) {
			text := fmt.Sprintf("%v: ", fb.s.Where(fb.from+at)) + fmt.Sprintf(format, args...)
			w.problems.Add(w.cursors[b].layer.Pos, text, hint+"change an octave, give them two players, or remove tab")
		}
	}
	stillHeld := func(held, struck *bar.Segment, holder, striker string) {
		if n := heldString(held, struck); n > 0 {
			report(struck.At, "shorten it with strike: short, ", "%s strikes %v on string %d, where %s still holds %v",
				striker, struck.Tones, n, holder, held.Tones)
		}
	}
	for i := range v.Segments {
		for k := range u.Segments {
			s, t := &v.Segments[i], &u.Segments[k]
			if s.Hand == nil || t.Hand == nil {
				continue
			}
			if s.At == t.At && !s.TieIn && !t.TieIn {
				if what := clash(s, t); what != "" {
					report(s.At, "", "what %s and %s strike together, %v and %v, is %s", v.Voice.Layer, u.Voice.Layer, s.Tones, t.Tones, what)
				}
				continue
			}
			stillHeld(s, t, v.Voice.Layer, u.Voice.Layer)
			stillHeld(t, s, u.Voice.Layer, v.Voice.Layer)
		}
	}
}

// heldString is a string on which one attack sounds when another takes it for another
// fret, 0 if there is none.
func heldString(held, struck *bar.Segment) int8 {
	if struck.TieIn || struck.At < held.At || struck.At >= held.At+held.Length {
		return 0
	}
	for _, s := range held.Hand.Struck {
		for _, t := range struck.Hand.Struck {
			if s.String == t.String && s.Fret != t.Fret {
				return s.String
			}
		}
	}
	return 0
}

// clash is why one hand cannot hold two attacks, "" if it can.
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
