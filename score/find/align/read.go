package align

import (
	"cmp"
	"fmt"
	"math"
	"slices"
)

// Options says what is known of taps, and what is allowed.
type Options struct {
	// Exceptions is how many there may be: 0 means as many as pay for themselves,
	// None none.
	Exceptions int

	Quarter   float64 // milliseconds that a quarter lasts; 0: not known
	Tolerance float64 // milliseconds that a tap may be off; 0: not said
}

// None allows no exceptions.
const None = -1

// allows reports whether a reading has no more exceptions than there may be.
func (o Options) allows(r *Reading) bool {
	return o.Exceptions == 0 || r.Exceptions() <= max(o.Exceptions, 0)
}

// Result is what was read.
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
	if r.n < 4 || slices.ContainsFunc(gapsOf(places), func(d int) bool { return d > farthest }) {
		return Result{}
	}
	bare := r.unlooped(gapsOf(places), nil)
	bare.Bits = kindBits + groupsBits(gapsOf(places))
	res := Result{Free: bare}
	read := func() *Reading {
		best := r.looped(gapsOf(places), places, o, math.Inf(1))
		if best != nil && r.n <= longTake {
			best = best.improved(o)
		}
		return best
	}
	res.add(read())
	if res.finish(); len(res.Readings) == 0 {
		r.bound = true
		res.nearest(read())
	}
	return res
}

// unlooped is the attacks as they stand, on the places given.
func (r row) unlooped(gaps []int, f *free) *Reading {
	read := &Reading{Pulse: r.pulse, Scatter: r.scatter, row: r, sizes: sizesOf(gaps), Segments: []Segment{{}}}
	if f != nil {
		read.second = f.second
	}
	for i, d := range gaps {
		read.Segments[0].Steps = append(read.Segments[0].Steps, Step{Move: freely, Attack: i, Attacks: 1, Pulses: d})
	}
	read.settle()
	return read
}

// looped lays loops over the attacks; nil if there are none to try, or none is of at
// most so many bits. It is tried
// as if many attacks had exceptions, and as if few: both are counted alike in the end.
func (r row) looped(gaps []int, places []int64, o Options, limit float64) *Reading {
	const few, many = 10, 8
	most := few
	if r.n > longTake {
		most = many
	}
	loops := r.fitting(candidates(gaps, places, most))
	if len(loops) == 0 {
		return nil
	}
	sizes := sizesOf(gaps)
	best := r.align(loops, sizes, math.Log2(12)+1.4, limit)
	if r.n <= longTake || r.places != nil {
		if best != nil {
			limit = min(limit, best.Bits)
		}
		best = shorter(r.align(loops, sizes, math.Log2(float64(r.n)), limit), best)
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

// fitting keeps as many of the loops as there is memory for, the first ones.
func (r row) fitting(loops [][]int) [][]int {
	each := 2 * r.n
	switch {
	case r.places != nil:
		each = r.n
	case r.pulse.swung():
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

// shorter returns the shorter of two readings, either of which may be nil; the
// first if they are equally short.
func shorter(a, b *Reading) *Reading {
	if a == nil || b != nil && b.Bits < a.Bits {
		return b
	}
	return a
}

// Taps reads taps in milliseconds, which ascend.
func Taps(taps []float64, o Options) Result {
	part := taps
	if len(taps) > longTake {
		part = taps[:pulseOnAttacks]
	}
	var res Result
	least := math.Inf(1)
	for _, f := range o.freely(part) {
		r := f.row(part)
		gaps := gapsOf(f.places)
		if bare := r.unlooped(gaps, f); res.Free == nil || f.bits(part) < res.Free.Bits {
			bare.Bits = f.bits(part)
			res.Free = bare
		}
		if best := r.looped(gaps, f.places, o, least+improvable); best != nil {
			best = best.again(o)
			least = min(least, best.Bits)
			res.add(best)
		}
	}
	res.sort()
	for i, r := range res.Readings[:min(followedPulses, len(res.Readings))] {
		res.Readings[i] = r.followed(o)
	}
	res.sort()
	for i, r := range res.Readings[:min(improvedPulses, len(res.Readings))] {
		res.Readings[i] = r.otherwiseSwung(o).improved(o)
	}
	res.finish()
	if o.Quarter == 0 {
		res.straightFirst()
	}
	switch {
	case len(part) < len(taps):
		return res.whole(taps, o)
	case res.Free != nil && (len(res.Readings) == 0 || res.Readings[0].Saved <= 0):
		r := res.Free.row
		r.bound = true
		res.nearest(r.looped(gapsOf(res.Free.Places), res.Free.Places, o, math.Inf(1)))
	}
	return res
}

// On how many pulses another drift is tried, and on how many loops are changed a
// little; and how many bits behind the shortest so far a reading is given up before
// that.
const (
	followedPulses = 6
	improvedPulses = 3
	improvable     = 40
)

// freely reads the taps on every pulse, and returns those whose count is the
// cheapest, one for each way of counting.
func (o Options) freely(taps []float64) []*free {
	const rough, kept = 40, 12
	var all []*free
	for _, p := range o.pulses(taps) {
		scatter := 0.1 * p.Milliseconds
		if o.Tolerance > 0 {
			scatter = o.Tolerance / 2
		}
		if f := p.readFreely(taps, scatter, 4, false); f != nil {
			all = append(all, f)
		}
	}
	all = cheapestCounts(all, taps)
	all = all[:min(rough, len(all))]
	for i, f := range all {
		if again := f.recount(taps, kept, false); again != nil {
			all[i] = again
		}
	}
	all = cheapestCounts(all, taps)
	said := map[string]bool{}
	all = slices.DeleteFunc(all, func(f *free) bool {
		key := fmt.Sprint(f.places)
		again := said[key]
		said[key] = true
		return again
	})
	if o.Quarter == 0 && len(all) > mostPulses {
		all = all[:mostPulses]
	}
	return all
}

// cheapestCounts sorts them by what they take.
func cheapestCounts(all []*free, taps []float64) []*free {
	cost := map[*free]float64{}
	for _, f := range all {
		cost[f] = f.bits(taps)
	}
	slices.SortStableFunc(all, func(a, b *free) int { return cmp.Compare(cost[a], cost[b]) })
	return all
}

func (f *free) row(taps []float64) row {
	return row{n: len(taps), taps: taps, pulse: f.pulse, scatter: f.scatter}
}

// whole reads all taps of a long take on the pulse that is best on its
// beginning.
func (res Result) whole(taps []float64, o Options) Result {
	from := res.Free
	if len(res.Readings) > 0 {
		from = res.Readings[0]
	}
	if from == nil {
		return Result{}
	}
	f := from.Pulse.count(taps, from.Scatter, 6, false)
	if f == nil {
		return Result{}
	}
	f.scatter = scatterOf(f.late[1:], from.Pulse.Milliseconds)
	r := f.row(taps)
	var all Result
	all.Free = r.unlooped(gapsOf(f.places), f)
	all.Free.Bits = f.bits(taps)
	all.add(r.looped(gapsOf(f.places), f.places, o, math.Inf(1)))
	all.finish()
	return all
}

// add takes a reading in, unless it is nil or a swing of which nothing is heard.
func (res *Result) add(r *Reading) {
	if r != nil && !r.swingsUnheard() {
		res.Readings = append(res.Readings, r)
	}
}

// nearest notes a reading that has to have loops, if it does: as the nearest where
// there is no other, else before others that are longer.
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

// fast is a pulse, in milliseconds, that few take for an eighth: quarters would come at
// 160 a minute.
const fast = 60_000 / 160 / 2

// straightFirst puts a straight reading before a swung one of even cycles that is
// little shorter: it says the same moments on a finer pulse. If that is fast, the
// shorter reading stays first: triplets are rather heard in a swung pulse.
func (res *Result) straightFirst() {
	const little = 4
	all := res.Readings
	if len(all) == 0 || !all[0].Pulse.swung() || !all[0].hasEvenCycles() {
		return
	}
	i := slices.IndexFunc(all, func(r *Reading) bool {
		return !r.Pulse.swung() && r.Bits <= all[0].Bits+little && r.Pulse.Milliseconds >= fast
	})
	if i > 0 {
		straight := all[i]
		res.Readings = slices.Insert(slices.Delete(all, i, i+1), 0, straight)
	}
}

func (r *Reading) hasEvenCycles() bool {
	for _, s := range r.Segments {
		sum := 0
		for _, group := range s.Loop {
			sum += group
		}
		if sum%2 != 0 {
			return false
		}
	}
	return true
}

// swingsUnheard reports whether a swung reading has nothing on the second of a
// pair, or nothing on the first.
func (r *Reading) swingsUnheard() bool {
	if r.Pulse == nil || !r.Pulse.swung() {
		return false
	}
	for _, s := range r.Segments {
		if slices.ContainsFunc(s.Steps, func(step Step) bool { return step.Pulses%2 != 0 }) {
			return false
		}
	}
	return true
}
