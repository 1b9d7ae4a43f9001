package analysis

import (
	"iter"
	"slices"

	"tieover/score"
	"tieover/score/beat"
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
	r := &passes{}
	r.next, r.end = iter.Pull(s.Passes(against))
	return r
}

// bars is the section's bars, each as long as the meter has it, also where the
// section's end cuts it.
type bars struct {
	s     *score.Section
	whole []beat.Time // lengths of the bars of the meter's rotation; nil where the plan changes the meter
}

func newBars(s *score.Section) *bars {
	b := &bars{s: s}
	if plainMeter(s) {
		for _, sig := range s.Meter {
			b.whole = append(b.whole, s.Grid.Must(sig.Span()))
		}
	}
	return b
}

func (b *bars) at(t beat.Time) (start, length beat.Time, ok bool) {
	bar := b.s.BarAt(t)
	if n := len(b.whole); n > 0 {
		return bar.Start, b.whole[(bar.N-1)%n], true
	}
	return bar.Start, bar.Length, true
}

func (b *bars) stop() {}

// loop is the cycles of a layer that never change their length.
type loop struct{ begins, ends, length beat.Time }

// runsAlike reports whether all passes of a layer are equally long and follow
// one another from its beginning to its end.
func runsAlike(l *score.Layer) bool {
	return l.Line == nil && l.Loop == score.Run && !lengthens(l) &&
		!slices.ContainsFunc(l.Patterns, func(p score.Pattern) bool { return pulses(p) != pulses(l.Patterns[0]) }) &&
		!slices.ContainsFunc(l.Except, func(e score.Exception) bool { return e.Cycle > 0 && e.Pattern != nil })
}

func pulses(p score.Pattern) int { return total(sizesOf(p)) }

func newLoop(s *score.Section, l *score.Layer) loop {
	return loop{begins: l.First, ends: min(l.Leaves, s.Length),
		length: beat.Time(pulses(l.Patterns[0])) * l.Unit}
}

func (l loop) at(t beat.Time) (start, length beat.Time, ok bool) {
	if t < l.begins || t >= l.ends {
		return 0, 0, false
	}
	return t - (t-l.begins)%l.length, l.length, true
}

func (l loop) stop() {}

// passes walks the cycles of any layer.
type passes struct {
	next                func() (*score.Cycle, bool)
	end                 func()
	start, over, length beat.Time // of the current cycle: where it sounds from, until, and how long it is whole
	done                bool
}

func (p *passes) at(t beat.Time) (start, length beat.Time, ok bool) {
	for !p.done && t >= p.over {
		c, more := p.next()
		if !more {
			p.done = true
			break
		}
		p.start, p.over, p.length = c.Start, c.End(), c.Length
	}
	if p.done || t < p.start {
		return 0, 0, false
	}
	return p.start, p.length, true
}

func (p *passes) stop() { p.end() }
