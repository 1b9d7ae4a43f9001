package align

import (
	"cmp"
	"math"
	"slices"
)

// Options is what is known of taps, and how many exceptions are allowed.
type Options struct {
	// Exceptions is how many there may be: 0 means as many as pay for themselves,
	// None none.
	Exceptions int

	Quarter   float64 // milliseconds that a quarter lasts; 0: not known
	Tolerance float64 // milliseconds that a tap may be off; 0: not known
}

// None allows no exceptions.
const None = -1

// allows reports whether a reading has no more exceptions than there may be.
func (o Options) allows(r *Reading) bool {
	return o.Exceptions == 0 || r.Exceptions() <= max(o.Exceptions, 0)
}

// isBetter reports whether a reading, which may be nil, is shorter than another, and has
// no more exceptions than there may be unless the other has, too.
func (o Options) isBetter(r, other *Reading) bool {
	return r != nil && r.Bits < other.Bits && (o.allows(r) || !o.allows(other))
}

// Result is what attacks may be read as.
type Result struct {
	Readings []*Reading // those with a loop, the shortest first
	Free     *Reading   // the attacks without any loop, at its shortest; nil if no pulse counts them
	// Nearest is the shortest that has loops all through where Readings is empty;
	// nil if no loop can be tried.
	Nearest *Reading
}

// Numbers reads attacks at whole places in pulses, which ascend. Only one pulse is
// possible, and the length of the last attack is not known.
func Numbers(places []int64, o Options) Result {
	r := row{n: len(places), places: places}
	if r.n < 4 {
		return Result{}
	}
	gaps := placeGaps(places)
	if slices.Max(gaps) > farthest {
		return Result{}
	}
	res := Result{Free: r.bareReading(gaps, false, kindBits+GroupsBits(gaps))}
	read := func() *Reading {
		best := r.alignLoops(places, o, math.Inf(1))
		if best != nil && r.n <= longTake {
			best = best.improve(o)
		}
		return best
	}
	res.add(read())
	res.addProcess(r, places, o)
	if res.finish(); len(res.Readings) == 0 || res.Readings[0].Process() != nil && res.Readings[0].Saved <= 0 {
		r.bound = true
		res.nearest(read())
	}
	return res
}

// reading returns the count of a row of taps as a reading.
func (f *free) reading(r row) *Reading { return r.bareReading(placeGaps(f.places), f.second, f.bits) }

// bareReading is the attacks at their distances, without a loop; second is whether the
// first is on the second pulse of a pair.
func (r row) bareReading(gaps []int, second bool, bits float64) *Reading {
	read := &Reading{Pulse: r.pulse, Scatter: r.scatter, row: r, sizes: sizeSet(gaps), second: second, Segments: []Segment{{}}}
	for i, d := range gaps {
		read.Segments[0].Steps = append(read.Segments[0].Steps, Step{Move: freeGap, Attack: i, Attacks: 1, Pulses: d})
	}
	read.settle()
	read.Bits = bits
	return read
}

// alignLoops lays loops that may be heard in the places over the attacks; nil if there
// are none to try, or none is of at most so many bits. It is tried as if many attacks had
// exceptions, and as if few: both are counted alike in the end.
func (r row) alignLoops(places []int64, o Options, limit float64) *Reading {
	const few, many = 10, 8
	most := few
	if r.n > longTake {
		most = many
	}
	gaps := placeGaps(places)
	loops := r.limitMemory(candidates(gaps, places, most))
	if len(loops) == 0 {
		return nil
	}
	sizes := sizeSet(gaps)
	best := r.align(loops, sizes, math.Log2(12)+1.4, limit)
	if r.n <= longTake || r.places != nil {
		if best != nil {
			limit = min(limit, best.Bits)
		}
		if next := r.align(loops, sizes, math.Log2(float64(r.n)), limit); best == nil || next != nil && next.Bits <= best.Bits {
			best = next
		}
	}
	for dearer := 4.0; best != nil && !o.allows(best) && dearer <= 64; dearer *= 2 {
		if fewer := r.align(loops, sizes, math.Log2(float64(r.n))+dearer, math.Inf(1)); fewer != nil {
			best = fewer
		}
	}
	return best
}

// mostBacks bounds the memory of an alignment: eight bytes each.
const mostBacks = 10_000_000

// limitMemory returns the first of the loops, as many as there is memory for.
func (r row) limitMemory(loops [][]int) [][]int {
	each := 2 * r.n
	switch {
	case r.places != nil:
		each = r.n
	case r.pulse.isSwung():
		each = 4 * r.n
	}
	states := 1
	for i, loop := range loops {
		if states += len(loop); states*each > mostBacks && i > 0 {
			return loops[:i]
		}
	}
	return loops
}

// add takes a reading in, unless it is nil or its swing is not heard.
func (res *Result) add(r *Reading) {
	if r != nil && !r.swingsUnheard() {
		res.Readings = append(res.Readings, r)
	}
}

// addProcess takes the shortest reading of a process in where no loop says all.
func (res *Result) addProcess(r row, places []int64, o Options) {
	if len(res.Readings) > 0 && res.Readings[0].isPlain() {
		return
	}
	if p := r.alignProcesses(places, o, res.Free.Bits); p != nil {
		res.add(p.rescatter(o).improve(o))
	}
}

// nearest takes in a reading that was bound to have loops, if it has any: as the nearest
// where there is no other, else before others that are longer.
func (res *Result) nearest(r *Reading) {
	if r == nil {
		return
	}
	if r.demote(); !r.HasLoop() {
		return
	}
	r.Saved = res.Free.Bits - r.Bits
	switch {
	case len(res.Readings) == 0:
		res.Nearest = r
	case r.Bits < res.Readings[0].Bits:
		res.Readings = slices.Insert(res.Readings, 0, r)
	}
}

func (res *Result) sort() {
	slices.SortStableFunc(res.Readings, func(a, b *Reading) int { return cmp.Compare(a.Bits, b.Bits) })
}

// Best returns the first reading, or the bare one if there are none.
func (res Result) Best() *Reading { return res.best(1)[0] }

// finish frees segments that are too short for their loop, drops what has no loop
// left, and ranks the rest.
func (res *Result) finish() {
	for _, r := range res.Readings {
		r.demote()
	}
	res.Readings = slices.DeleteFunc(res.Readings, func(r *Reading) bool { return !r.HasLoop() })
	for _, r := range res.Readings {
		r.Saved = res.Free.Bits - r.Bits
	}
	res.sort()
}
