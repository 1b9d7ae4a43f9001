package layout

import (
	"slices"

	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/instrument"
)

// technique is how a staff is played: what is in force in each matter, and what
// must be ended in words before it plays on in the ordinary way; nil for none.
type technique struct {
	now, due [instrument.Matters]*instrument.Technique
}

// ordinary ends what was in force as a section begins.
func (w *partWalk) ordinary() {
	for k := range w.playing {
		p := &w.playing[k]
		for matter, t := range p.now {
			if t != nil {
				p.due[matter] = t
			}
		}
		p.now = [instrument.Matters]*instrument.Technique{}
	}
}

// playedAgain ends what is in force at the end of a section, where what of it is played
// again begins.
func (w *partWalk) playedAgain(fb *frameBar) {
	if !fb.again {
		return
	}
	s := fb.s
	for _, i := range w.plan.player.Layers[w.section] {
		l := s.Layers[i]
		staff := w.plan.StaffOf(l.Name)
		for _, t := range s.Techniques(l) {
			p := &w.playing[staff-1]
			p.due[t.Matter] = t.Technique
			if t.Usual || t.Technique == p.now[t.Matter] { // the pickup has it in force
				p.due[t.Matter] = nil
			}
		}
	}
}

// techniques writes the ways of playing that begin in the bar, once over each
// staff; first the words that lead back from those that a section's end ended.
func (w *partWalk) techniques(fb *frameBar) {
	w.leadBack(fb)
	for _, e := range fb.entries {
		var done [3]bool // by staff
		for i, c := range w.onInstrument {
			staff := w.plan.Voices[i].Staff
			for _, l := range c.layers() {
				if t, ok := e.Technique(l); ok && !done[staff] {
					done[staff] = true
					w.put(fb, e.Time, sheet.Mark{Kind: sheet.TechniqueMark, Voice: i, Text: e.Text, Technique: t})
					w.playing[staff-1].now[t.Matter] = t
					if t.Usual {
						w.playing[staff-1].now[t.Matter] = nil
					}
				}
			}
		}
	}
}

// leadBack prints the words that end a way of playing where a staff plays on, unless the
// plan has words of the same matter no later.
func (w *partWalk) leadBack(fb *frameBar) {
	for i, c := range w.cursors {
		if c == nil || c.share.other {
			continue
		}
		p := &w.playing[w.plan.Voices[i].Staff-1]
		for matter, over := range p.due {
			if over == nil {
				continue
			}
			at, sounds := fb.to, len(c.sounds) > 0
			if sounds {
				at = max(fb.from, c.sounds[0].at)
			}
			said := slices.ContainsFunc(fb.entries, func(e *score.PlanEntry) bool {
				t, ok := e.Technique(c.layer)
				return ok && t.Matter == over.Matter && e.Time <= at
			})
			back, ok := c.layer.Instrument.Technique(over.Back)
			if said || sounds {
				p.due[matter] = nil
			}
			if sounds && !said && ok {
				w.put(fb, at, sheet.Mark{Kind: sheet.TechniqueMark, Voice: i, Text: over.Back, Technique: back})
			}
		}
	}
}
