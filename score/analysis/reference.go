package analysis

import (
	"iter"
	"slices"

	"tieover/score"
	"tieover/score/beat"
	"tieover/score/peek"
)

// reference is the bars or the cycles of a layer, to place moments in. It is
// asked in time order.
type reference interface {
	// at returns the start and the length of the bar or cycle that t falls in.
	at(t beat.Time) (start, length beat.Time, ok bool)
	stop()
}

func newReference(s *score.Section, against int) reference {
	switch {
	case against == Barline:
		return newBars(s)
	case runsAlike(s.Layers[against]):
		return newLoop(s, s.Layers[against])
	}
	return passes{peek.Of(passesOf(s, against))}
}

// bars is the section's bars, each as long as the meter has it, also a pickup and
// where the section's end cuts it.
type bars struct{ s, whole *score.Section } // whole: from bar 1 on

func newBars(s *score.Section) bars {
	if plainMeter(s) {
		return bars{s, s.Barred(s.Meter)}
	}
	return bars{s, s}
}

func (b bars) at(t beat.Time) (start, length beat.Time, ok bool) {
	s := b.whole
	if t < 0 {
		s = b.s
	}
	bar := s.BarAt(t)
	return bar.Start - bar.Skipped, bar.Skipped + bar.Length, true
}

func (b bars) stop() {}

// loop is the cycles of a layer that never change their length.
type loop struct{ begins, ends, length beat.Time }

// runsAlike reports whether all passes of a layer are equally long and follow
// one another from its beginning to its end.
func runsAlike(l *score.Layer) bool {
	return l.Line == nil && l.Loop == score.Run && !lengthens(l) &&
		!slices.ContainsFunc(l.Patterns, func(p score.Pattern) bool {
			return score.CountPulses(p.Groups) != score.CountPulses(l.Patterns[0].Groups)
		}) &&
		!slices.ContainsFunc(l.Except, func(e score.Exception) bool { return e.Cycle > 0 && e.Pattern != nil })
}

func newLoop(s *score.Section, l *score.Layer) loop {
	return loop{begins: l.First, ends: min(l.Leaves, s.Length),
		length: beat.Time(score.CountPulses(l.Patterns[0].Groups)) * l.Unit}
}

func (l loop) at(t beat.Time) (start, length beat.Time, ok bool) {
	if t < l.begins || t >= l.ends {
		return 0, 0, false
	}
	return t - (t-l.begins)%l.length, l.length, true
}

func (l loop) stop() {}

// passes walks the cycles of any layer.
type passes struct{ ahead *peek.Peeker[pass] }

// pass is one cycle: where it sounds from, until, and how long it is whole.
type pass struct{ start, over, length beat.Time }

func passesOf(s *score.Section, layer int) iter.Seq[pass] {
	return func(yield func(pass) bool) {
		for c := range s.Passes(layer) {
			if !yield(pass{c.Start, c.End(), c.Length}) {
				return
			}
		}
	}
}

func (p passes) at(t beat.Time) (start, length beat.Time, ok bool) {
	c := p.ahead.Ahead()
	for ; c != nil && t >= c.over; c = p.ahead.Ahead() {
		p.ahead.Drop()
	}
	if c == nil || t < c.start {
		return 0, 0, false
	}
	return c.start, c.length, true
}

func (p passes) stop() { p.ahead.Stop() }
