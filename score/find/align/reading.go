package align

import (
	"math"
	"slices"
)

// Reading is one way to describe the attacks.
type Reading struct {
	Pulse    *Pulse  // nil where the attacks came as numbers
	Scatter  float64 // standard deviation of the taps from their places, in milliseconds
	Segments []Segment
	Places   []int64   // of every attack, in pulses from the first
	Late     []float64 // how late each tap is, in milliseconds; nil for numbers
	Bits     float64
	Saved    float64 // bits less than the attacks without a loop, on whatever pulse

	row    row
	timing float64 // bits of the taps' moments and of the pulse
	second bool    // the first attack is on the second pulse of a pair
	sizes  map[int]bool
	where  float64
}

// trace follows the moves back from a hypothesis at the last attack.
func (a *aligner) trace(h int) *Reading {
	r := &Reading{Pulse: a.pulse, Scatter: a.scatter, row: a.row, sizes: a.sizes, where: a.where}
	perRow := len(a.states) * a.kept
	var steps []Step
	var loops []int // of each step, where it arrives
	i := a.n - 1
	for {
		b := a.backs[i*perRow+h]
		st := a.states[h/a.kept]
		steps = append(steps, Step{Move: b.move(), Attack: i - b.attacks(), Attacks: b.attacks(), Pulses: b.pulses(), Group: st.group})
		loops = append(loops, st.loop)
		if b.move() == start {
			r.second = st.second
			break
		}
		i, h = i-b.attacks(), b.from()
	}
	slices.Reverse(steps)
	slices.Reverse(loops)
	for k, s := range steps {
		if s.Move == start || s.Move == switchLoop {
			seg := Segment{From: s.Attack}
			if loops[k] >= 0 {
				seg.Loop, seg.Process = rotate(a.loops[loops[k]], s.Group), a.process
			}
			r.Segments = append(r.Segments, seg)
			continue
		}
		seg := &r.Segments[len(r.Segments)-1]
		seg.Steps = append(seg.Steps, s)
	}
	r.settle()
	return r
}

// settle numbers cycles and groups, hears all taps again along the steps, and counts the
// bits.
func (r *Reading) settle() {
	r.Places, r.Late = make([]int64, 1, r.row.n), nil
	cost := Gamma(int64(r.row.n))
	for k := range r.Segments {
		if s := &r.Segments[k]; s.Loop != nil {
			s.number()
		}
	}
	if r.timing = r.hear(); r.Pulse != nil {
		r.timing += r.Pulse.bits
	}
	exceptions := 0
	for k := range r.Segments {
		s := &r.Segments[k]
		cost += kindBits
		if k > 0 {
			cost += math.Log2(float64(r.row.n))
		}
		if s.Loop == nil {
			cost += s.freeBits(r.sizes)
			continue
		}
		if k == 0 && r.second {
			cost += kindBits
		}
		cost += s.loopBits()
		for _, step := range s.Steps {
			if step.IsException() {
				exceptions++
				cost += s.bits(step)
			}
		}
	}
	cost += WhereBits(r.row.n, exceptions)
	if r.Pulse != nil && r.commonSize() > 1 {
		r.timing += coarser
	}
	r.Bits = cost + r.timing
}

// PlaceBits is what a reading takes to describe the places, without the taps' moments.
func (r *Reading) PlaceBits() float64 { return r.Bits - r.timing }

// BareBits is what the places take without loops.
func (r *Reading) BareBits() float64 { return kindBits + GroupsBits(placeGaps(r.Places)) }

// coarser is what a pulse costs more if all groups have a common divisor: a coarser pulse
// does as well.
const coarser = 8

// commonSize is the greatest common divisor of all groups of the loops, 0
// without a loop.
func (r *Reading) commonSize() (size int) {
	for _, s := range r.Segments {
		for _, group := range s.Loop {
			for group != 0 {
				size, group = group, size%group
			}
		}
	}
	return size
}

// LastGroup is how long the last attack lasts in its loop, 0 when it is in none.
func (r *Reading) LastGroup() int {
	s := r.Segments[len(r.Segments)-1]
	if s.Loop == nil {
		return 0
	}
	at := 0
	for _, step := range s.Steps {
		at += s.Groups(step)
	}
	return s.Loop[at%len(s.Loop)]
}

// HasLoop reports whether any segment has a loop.
func (r *Reading) HasLoop() bool {
	return slices.ContainsFunc(r.Segments, func(s Segment) bool { return s.Loop != nil })
}

// IsEven reports whether all attacks are equally far apart.
func (r *Reading) IsEven() bool { return len(sizeSet(placeGaps(r.Places))) == 1 }

// Exceptions counts the steps that are not as the loops have them.
func (r *Reading) Exceptions() (n int) {
	for _, s := range r.Segments {
		for _, step := range s.Steps {
			if step.IsException() {
				n++
			}
		}
	}
	return n
}

// isPlain reports whether a single loop says all without an exception.
func (r *Reading) isPlain() bool { return len(r.Segments) == 1 && r.HasLoop() && r.Exceptions() == 0 }

// Halved returns the count of the taps on a pulse half as long, where that brings those to
// a place that are half a pulse off, and leaves none off; else nil.
func (r *Reading) Halved() *Reading {
	if r.Pulse == nil || r.Pulse.isSwung() || r.Pulse.Milliseconds/2 < shortestPulse {
		return nil
	}
	const near = 0.125 // of a pulse
	half := *r.Pulse
	half.Milliseconds, half.Parts = half.Milliseconds/2, 2*half.Parts
	f := &free{pulse: &half, scatter: r.Scatter, places: make([]int64, r.row.n)}
	moved := false
	for i, at := range r.Places {
		off := r.Late[i] / r.Pulse.Milliseconds
		f.places[i] = 2 * at
		switch {
		case math.Abs(off) <= near:
		case math.Abs(math.Abs(off)-0.5) <= near:
			moved = true
			f.places[i] += int64(math.Copysign(1, off))
		default:
			return nil
		}
		if i > 0 && f.places[i] <= f.places[i-1] {
			return nil
		}
	}
	if !moved || f.places[0] != 0 {
		return nil
	}
	f.weigh(r.row.taps)
	return f.reading(f.row(r.row.taps))
}
