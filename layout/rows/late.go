package rows

import (
	"slices"

	"tieover/score"
	"tieover/score/beat"
)

// Lateness says how a cycle's head stands against the barline.
type Lateness struct {
	Kind   LateKind
	Pulses beat.Span // for Late and Early: how far, in the layer's pulses; may be a fraction
}

// LateKind says on which side of the barline a head is.
type LateKind int

const (
	OnTime LateKind = iota // at the barline, and never was elsewhere
	Late                   // after the barline
	Early                  // before the barline
	Home                   // at the barline again, after a way round
)

// Words says it as people do: "late 2", "early 1 1/2", "on 1" when the head has
// come round to the barline, nothing when it never left.
func (l Lateness) Words() string {
	switch l.Kind {
	case Late:
		return "late " + l.Pulses.Mixed()
	case Early:
		return "early " + l.Pulses.Mixed()
	case Home:
		return "on 1"
	}
	return ""
}

// latecomer follows the heads of a layer. Where all bars are equally long it
// keeps the direction in which they move, so a head that comes two pulses
// earlier each time is early 2, early 4, early 6; among unequal bars it says
// how late the head is in its own bar.
type latecomer struct {
	s     *score.Section
	unit  beat.Time
	bar   beat.Time // the length of every bar, 0 when they differ
	ahead beat.Time // how much of the bar that time 0 is in lies before it; only where bar is known
	total beat.Time // steps added up
	place beat.Time // of the head before, in its bar
	first bool
}

func (ch *Chart) newLatecomer(l *score.Layer) latecomer {
	one := ch.Section.Bar(1)
	w := latecomer{s: ch.Section, unit: l.Unit, first: true}
	if ch.Equal() {
		w.bar = one.Skipped + one.Length
		w.ahead = (one.Skipped - one.Start).Mod(w.bar)
	}
	return w
}

// next takes the next cycle of the layer.
func (w *latecomer) next(c *score.Cycle) Lateness {
	head := c.Start + c.Head
	if w.bar == 0 {
		if head < 0 {
			return w.away(Early, -head)
		}
		b := w.s.BarAt(head)
		if past := head - b.Start + b.Skipped; past > 0 {
			return w.away(Late, past)
		}
		return Lateness{}
	}
	start := w.ahead.Signed(w.bar) // how late the section's start is
	place := (head + w.ahead).Mod(w.bar)
	switch {
	case w.first && head <= 0:
		w.total = start + head
	case w.first:
		w.total = place
	case c.Number == 1 && place == w.ahead:
		w.total = start
	default:
		w.total += (place - w.place).Signed(w.bar)
	}
	w.place = place
	w.first = false
	switch past := w.total % w.bar; {
	case past > 0:
		return w.away(Late, past)
	case past < 0:
		return w.away(Early, -past)
	case w.total != 0:
		return Lateness{Kind: Home}
	}
	return Lateness{}
}

// away is a head that is so far from the barline.
func (w *latecomer) away(kind LateKind, by beat.Time) Lateness {
	return Lateness{kind, beat.Of(int64(by), int64(w.unit))}
}

// signatures lists the signatures that the section's bars may have, each once.
func signatures(s *score.Section) (all []score.Signature) {
	add := func(meter ...score.Signature) {
		for _, sig := range meter {
			if !slices.ContainsFunc(all, sig.Equal) {
				all = append(all, sig)
			}
		}
	}
	add(s.Meter...)
	for _, e := range s.Plan {
		add(e.Meter...)
	}
	if last := s.Bar(s.BarCount()); last.Filled < last.Length || !s.Last || s.End == score.Repeat {
		add(last.Signature)
	}
	return all
}
