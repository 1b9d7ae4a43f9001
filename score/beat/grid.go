package beat

import "fmt"

// Time is a moment or a length in ticks of the piece's Grid. A piece of the
// allowed size stays below 2^42 ticks.
type Time int64

// Grid is how many ticks a whole note has. A piece has one grid, a multiple of
// 4, on which every pulse, barline and attack of all its sections is whole.
type Grid int64

// MaxGrid is the finest grid: MusicXML advises at most 16,383 divisions a
// quarter for the sake of MIDI.
const MaxGrid Grid = 4 * 16383

// Ticks returns s in ticks. ok is false when s does not fall on the grid.
func (g Grid) Ticks(s Span) (t Time, ok bool) {
	if int64(g)%s.Den() != 0 {
		return 0, false
	}
	return Time(mul(s.Num(), int64(g)/s.Den())), true
}

// Must is Ticks for a span that is known to fall on the grid; it panics if not.
func (g Grid) Must(s Span) Time {
	t, ok := g.Ticks(s)
	if !ok {
		panic(fmt.Sprintf("beat: %v is off the grid of %d", s, g))
	}
	return t
}

// Span returns t in whole notes.
func (g Grid) Span(t Time) Span { return Of(int64(t), int64(g)) }

// Including returns the coarsest grid that refines g and holds spans of
// denominator den. ok is false past MaxGrid.
func (g Grid) Including(den int64) (finer Grid, ok bool) {
	n, ok := LCM(int64(g), den)
	if !ok || Grid(n) > MaxGrid {
		return 0, false
	}
	return Grid(n), true
}

// Mod returns t modulo m in [0, m), also for a negative t. m is positive.
func (t Time) Mod(m Time) Time { return Mod(t, m) }

// Signed returns t modulo m in (-m/2, m/2]: how late (positive) or early
// (negative) t is against the nearest multiple of m; exactly half is late.
func (t Time) Signed(m Time) Time {
	r := t.Mod(m)
	if 2*r > m {
		return r - m
	}
	return r
}
