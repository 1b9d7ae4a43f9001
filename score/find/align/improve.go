package align

import (
	"iter"
	"math"
	"slices"
)

// rescatter reads the taps again with the scatter of the reading, while that differs and
// the reading gets shorter. Numbers have no scatter.
func (r *Reading) rescatter(o Options) *Reading {
	if r.Pulse == nil {
		return r
	}
	for range 2 {
		scatter := r.heardScatter()
		if math.Abs(scatter/r.Scatter-1) < 0.05 {
			break
		}
		row := r.row
		row.scatter = scatter
		next := r.realign(row, r.Bits)
		if !o.isBetter(next, r) {
			break
		}
		r = next
	}
	return r
}

// realign aligns the loops or the process of the reading with another row.
func (r *Reading) realign(row row, most float64) *Reading {
	if w := r.Process(); w != nil {
		return row.alignProcess(w, r.sizes, r.where, most)
	}
	return row.align(r.loops(), r.sizes, r.where, most)
}

// tryDrift returns the reading with a tracker that follows a drift more quickly, if that
// saves more than the bit that it takes.
func (r *Reading) tryDrift(o Options) *Reading {
	row, pulse := r.row, *r.Pulse
	row.pulse = &pulse
	pulse.drifts *= drifting
	pulse.bits++
	next := r.realign(row, math.Inf(1))
	if next != nil {
		next = next.rescatter(o)
	}
	if o.isBetter(next, r) {
		return next
	}
	return r
}

// trySwings returns the reading of the same loops on the same pulse, swung in the ratio
// that makes it the shortest: without a loop the ratio is hardly heard.
func (r *Reading) trySwings(o Options) *Reading {
	if !r.Pulse.isSwung() {
		return r
	}
	best := r
	for _, s := range swings {
		if s == r.Pulse.Swing {
			continue
		}
		row, pulse := r.row, *r.Pulse
		row.pulse, pulse.Swing = &pulse, s
		if next := r.realign(row, best.Bits); o.isBetter(next, best) {
			best = next.rescatter(o)
		}
	}
	return best
}

// Refine starts from the average length of a pulse and hears the taps again, if that brings
// them nearer to their places.
func (r *Reading) Refine() {
	if r.Pulse == nil {
		return
	}
	var off, pulses float64
	second := r.second
	for _, s := range r.Segments {
		for _, step := range s.Steps {
			if step.Move == Paused {
				return
			}
			pulses += r.Pulse.span(second, step.Pulses)
			second = second != (step.Pulses%2 != 0)
		}
	}
	for _, late := range r.Late {
		off += math.Abs(late)
	}
	pulse := *r.Pulse
	pulse.Milliseconds = (r.row.taps[r.row.n-1] - r.row.taps[0]) / pulses
	other := *r
	other.Pulse, other.row.pulse = &pulse, &pulse
	other.settle()
	for _, late := range other.Late {
		off -= math.Abs(late)
	}
	if off > 0 {
		r.Pulse, r.Late = other.Pulse, other.Late
	}
}

// heardScatter estimates the scatter of the taps along the steps, without stray ones and
// the first after a pause.
func (r *Reading) heardScatter() float64 {
	var late []float64
	for _, s := range r.Segments {
		for _, step := range s.Steps {
			if step.Move != Paused {
				late = append(late, r.Late[step.Attack+step.Attacks])
			}
		}
	}
	if len(late) == 0 {
		return r.Scatter
	}
	return estimateScatter(late, r.Pulse.Milliseconds)
}

// loops lists the different loops of the segments.
func (r *Reading) loops() [][]int {
	var all [][]int
	seen := map[string]bool{}
	for _, s := range r.Segments {
		if s.Loop == nil || seen[rotationKey(s.Loop)] {
			continue
		}
		seen[rotationKey(s.Loop)] = true
		all = append(all, s.Loop)
	}
	return all
}

// Bounds of the changes that are tried to make a reading shorter.
const (
	mostRounds   = 4
	mostImproved = 4  // loops
	longImproved = 24 // groups
	rounding     = 1e-9
)

// improve changes the loops, or the process, a little while that makes the reading
// shorter.
func (r *Reading) improve(o Options) *Reading {
	for range mostRounds {
		best := r
		for align := range r.variants() {
			if next := align(best.Bits); o.isBetter(next, best) && best.Bits-next.Bits > rounding {
				best = next
			}
		}
		if best == r {
			return r
		}
		r = best.rescatter(o)
	}
	return r
}

// variants walks readings of loops, or of a process, that differ a little, one loop at a
// time. Each is only aligned when called, and is nil if it takes more bits than the limit.
func (r *Reading) variants() iter.Seq[func(limit float64) *Reading] {
	return func(yield func(func(float64) *Reading) bool) {
		if w := r.Process(); w != nil {
			for _, other := range w.variants(r.row.n) {
				if !yield(func(limit float64) *Reading { return r.row.alignProcess(other, r.sizes, r.where, limit) }) {
					return
				}
			}
			return
		}
		loops := r.loops()
		if len(loops) > mostImproved {
			return
		}
		for k, loop := range loops {
			if len(loop) > longImproved {
				continue
			}
			for _, other := range loopVariants(loop) {
				tried := slices.Clone(loops)
				tried[k] = other
				if !yield(func(limit float64) *Reading { return r.row.align(tried, r.sizes, r.where, limit) }) {
					return
				}
			}
		}
	}
}

// loopVariants returns loops that differ a little: an edge of a group moved, two groups
// joined, one split, a pulse more or less.
func loopVariants(loop []int) [][]int {
	var all [][]int
	add := func(groups []int) {
		if !slices.ContainsFunc(groups, func(size int) bool { return size < 1 }) && isPrimitive(groups) {
			all = append(all, groups)
		}
	}
	m := len(loop)
	for i := range loop {
		next := (i + 1) % m
		for _, by := range []int{1, -1} {
			longer := slices.Clone(loop)
			longer[i] += by
			add(slices.Clone(longer))
			if m > 1 {
				longer[next] -= by
				add(longer)
			}
		}
		if m > 1 {
			joined := slices.Clone(loop)
			joined[i] += joined[next]
			add(slices.Delete(joined, next, next+1))
		}
		for size := 1; size < loop[i]; size++ {
			add(slices.Replace(slices.Clone(loop), i, i+1, size, loop[i]-size))
		}
	}
	return all
}

// demote frees every segment with fewer plain groups than its loop needs, and joins free
// segments that meet.
func (r *Reading) demote() {
	var kept []Segment
	changed := false
	for k, s := range r.Segments {
		plain := s.plain()
		if k == len(r.Segments)-1 {
			plain++ // the last attack begins a group of its own
		}
		if s.Loop != nil && plain < s.least() {
			s, changed = r.freeSegment(s), true
		}
		if n := len(kept); n > 0 && s.Loop == nil && kept[n-1].Loop == nil {
			kept[n-1].Steps = append(kept[n-1].Steps, s.Steps...)
			continue
		}
		kept = append(kept, s)
	}
	if !changed {
		return
	}
	r.Segments = kept
	r.settle()
}

// freeSegment returns the segment without its loop.
func (r *Reading) freeSegment(s Segment) Segment {
	f := Segment{From: s.From}
	for _, step := range s.Steps {
		for a := step.Attack; a < step.Attack+step.Attacks; a++ {
			f.Steps = append(f.Steps, Step{Move: freeGap, Attack: a, Attacks: 1, Pulses: int(r.Places[a+1] - r.Places[a])})
		}
	}
	return f
}
