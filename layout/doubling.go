package layout

import (
	"fmt"
	"slices"

	"tieover/layout/bar"
	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/beat"
	"tieover/score/instrument"
)

// A player who changes instruments has one part and a plan for each of them, or
// several for what is never there together. A walk holds one at a time, and changes
// at the bar in which the next one sounds first.

// takeTurns finds which instruments the player takes up, with which the part begins,
// and which sections begin otherwise than they end when they are played again. All are
// read on as many lines as the one that has most.
func (pt *part) takeTurns(player score.Player) {
	pt.whole = player
	if !player.Doubles() {
		pt.plan = pt.first()
		return
	}
	pt.again = make([]bool, len(pt.p.Sections))
	for t := range pt.p.Turns(player) {
		if t.Before == nil {
			pt.plan = pt.planOf(t.Layer)
		}
		pt.again[t.Section] = pt.again[t.Section] || t.Again
		if on := t.Layer.Instrument; !slices.Contains(pt.takes, on) {
			pt.takes = append(pt.takes, on)
		}
	}
	for k := range pt.plan.Staves {
		lines := 0
		for _, plan := range pt.plans {
			lines = max(lines, plan.Staves[k].Lines)
		}
		for _, plan := range pt.plans {
			plan.Staves[k].Lines = lines
		}
	}
}

// pitched reports whether one of the player's instruments reads pitches.
func (pt *part) pitched() bool {
	return slices.ContainsFunc(pt.plans, func(plan *partPlan) bool { return plan.Pitched })
}

// planOn returns the plan of an instrument; of nil that which the part begins with.
func (pt *part) planOn(i *instrument.Instrument) *partPlan {
	if k := slices.IndexFunc(pt.plans, func(plan *partPlan) bool { return plan.player.Instrument == i }); k >= 0 {
		return pt.plans[k]
	}
	return pt.plan
}

// planOf returns the plan in which a layer is written.
func (pt *part) planOf(l *score.Layer) *partPlan {
	return pt.plans[slices.IndexFunc(pt.plans, func(plan *partPlan) bool {
		return plan.player.Instrument == l.Instrument && plan.StaffOf(l.Name) > 0
	})]
}

// widest is the plan with the most voices.
func widest(plans []*partPlan) *partPlan {
	return slices.MaxFunc(plans, func(a, b *partPlan) int { return len(a.Voices) - len(b.Voices) })
}

// hand is what a walk remembers of one of the player's instruments.
type hand struct {
	cursors []*cursor // by voice; nil where silent
	inputs  []bar.VoiceInput
	voices  []voiceState
	clefs   []staffClef   // by staff
	playing *[2]technique // by staff; shared by all on one instrument
}

// newHands begins what a walk remembers, by plan.
func newHands(plans []*partPlan) []hand {
	hands := make([]hand, len(plans))
	for k, plan := range plans {
		n := len(plan.Voices)
		h := hand{cursors: make([]*cursor, n), inputs: make([]bar.VoiceInput, n), voices: make([]voiceState, n), playing: &[2]technique{}}
		for i := range h.inputs {
			h.inputs[i].Voice = plan.Voices[i]
		}
		for _, s := range plan.Staves {
			h.clefs = append(h.clefs, staffClef{now: s.Clef})
		}
		if first := slices.IndexFunc(plans, plan.sameInstrument); first < k {
			h.playing = hands[first].playing
		}
		hands[k] = h
	}
	return hands
}

func (p *partPlan) sameInstrument(other *partPlan) bool {
	return p.player.Instrument == other.player.Instrument
}

// take makes a plan the current one, and the walk's state that of its instrument.
func (w *partWalk) take(plan *partPlan) {
	w.plan, w.hand = plan, &w.hands[slices.Index(w.plans, plan)]
	w.in.Voices, w.writer.Pitched = w.inputs, plan.Pitched
	if w.takes != nil {
		w.in.Instrument = plan.player.Instrument
	}
}

// onInstrument yields all that the player has on the current instrument, and the voice
// of the bar over which its words are printed: its own, or the first where it is not in
// the bar.
func (w *partWalk) onInstrument(yield func(voice int, c *cursor) bool) {
	for i, c := range w.cursors {
		if c != nil && !c.share.other && !yield(i, c) {
			return
		}
	}
	for k, plan := range w.plans {
		if plan == w.plan || !plan.sameInstrument(w.plan) {
			continue
		}
		for _, c := range w.hands[k].cursors {
			if c != nil && !c.share.other && !yield(0, c) {
				return
			}
		}
	}
}

// turn takes up the instrument that sounds first in the bar, and reports whether
// one is named there: another one; the first of all in the first bar; and, where a
// section begins otherwise than it ends and is played again, its first there.
func (w *partWalk) turn(fb *frameBar) (named bool) {
	if w.turns == nil {
		w.changeLayers(fb)
		return false
	}
	for next := w.turns.Ahead(); next != nil && (next.Again && next.Section < w.section || next.Before == nil); next = w.turns.Ahead() {
		w.turns.Drop()
	}
	restated := w.restates(fb, func(a, b *partPlan) bool { return a == b })
	named = w.bars == 1 || restated
	for {
		next := w.turns.Ahead()
		if next == nil || next.Again || next.Section != w.section || next.Time >= fb.to && !(restated && next.In < w.section) {
			w.changeLayers(fb)
			return named
		}
		if next.In == w.section && next.Over > fb.from {
			w.clash(fb, next)
		}
		w.take(w.planOf(next.Layer))
		w.turns.Drop()
		named, w.announced = true, false
	}
}

// changeLayers takes other layers on the same instrument where the current ones are not
// there in the bar.
func (w *partWalk) changeLayers(fb *frameBar) {
	there := func(plan *partPlan) bool {
		return plan.sameInstrument(w.plan) && slices.ContainsFunc(plan.player.Layers[w.section], func(j int) bool {
			l := fb.s.Layers[j]
			return l.Enters < fb.to && (l.Leaves > fb.from || fb.landing && l.Leaves >= fb.s.Length)
		})
	}
	if len(w.plans) == 1 || there(w.plan) {
		return
	}
	if next := slices.IndexFunc(w.plans, there); next >= 0 {
		w.take(w.plans[next])
	}
}

// restates reports whether a section is played again from here after it has ended with
// another instrument, so that what the player's instruments do not have alike is printed
// again.
func (w *partWalk) restates(fb *frameBar, alike func(a, b *partPlan) bool) bool {
	return fb.again && w.again != nil && w.again[w.section] &&
		slices.ContainsFunc(w.plans, func(plan *partPlan) bool { return !alike(plan, w.plans[0]) })
}

// clash reports that a bar of this view holds two instruments of the player.
func (w *partWalk) clash(fb *frameBar, t *score.Turn) {
	if !w.firstTime("two instruments") || w.lenient {
		return
	}
	w.problems.Add(t.Layer.Pos, fmt.Sprintf("bar %d of this view holds both %s and %s of player %q; a player changes instruments at a barline",
		fb.number, t.Before.Name, t.Layer.Name, w.whole.Name), "take the common view, or give them two players")
}

// instruments names what the player takes up in the bar, and after the last sound on
// an instrument what comes next.
func (w *partWalk) instruments(fb *frameBar) {
	if w.turns == nil {
		return
	}
	if w.bar.NewInstrument {
		on := w.plan.player.Instrument
		w.put(fb, fb.from, sheet.Mark{Kind: sheet.InstrumentMark, Text: on.Called(), Instrument: on})
	}
	everyTime := fb.s.End != score.Repeat // what comes next comes whenever the section ends
	for next := w.turns.Ahead(); next != nil && next.Before != nil && !w.announced; next = w.turns.Ahead() {
		at, here := w.layDown(fb, next)
		if !here {
			return
		}
		text := "to " + next.Layer.Instrument.Called()
		if !next.Again {
			if w.announced = true; next.Section != w.section && !everyTime {
				text += " the last time"
			}
		} else {
			again := *next
			if w.turns.Drop(); w.turns.Ahead() != nil && w.turns.Ahead().Layer.Instrument == again.Layer.Instrument {
				everyTime = true
				continue // it is the next thing anyway
			}
			text += " for the repeat"
		}
		w.put(fb, at, sheet.Mark{Kind: sheet.InstrumentMark, Text: text})
	}
}

// layDown finds where in the bar the next instrument is announced: when the last sound
// before it is over; where that is a barline, over the rests that follow, or before it
// if none do.
func (w *partWalk) layDown(fb *frameBar, t *score.Turn) (at beat.Time, here bool) {
	if t.In != w.section || t.Over > fb.to || t.Over < fb.from {
		return 0, false
	}
	if t.Over < fb.to || fb.to >= fb.s.Extent() {
		return t.Over, true
	}
	next := fb.s.BarAt(fb.to)
	return t.Over, !t.Again && t.Section == w.section && t.Time < next.End()
}
