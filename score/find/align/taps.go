package align

import (
	"cmp"
	"fmt"
	"math"
	"slices"
)

// Taps reads taps in milliseconds, which ascend.
func Taps(taps []float64, o Options) Result {
	part := taps
	if len(taps) > longTake {
		part = taps[:pulseOnAttacks]
	}
	var res Result
	least := math.Inf(1)
	for _, f := range o.freeReadings(part) {
		r := f.row(part)
		if res.Free == nil || f.bits < res.Free.Bits {
			res.Free = f.reading(r)
		}
		best := r.alignLoops(f.places, o, least+improvable)
		if best != nil {
			best = best.rescatter(o)
			least = min(least, best.Bits)
			res.add(best)
		}
		if len(part) < len(taps) || best != nil && best.isPlain() {
			continue // no process is looked for in long takes, nor where a loop says all
		}
		if p := r.alignProcesses(f.places, o, min(least, f.bits)+improvable); p != nil {
			p = p.rescatter(o)
			least = min(least, p.Bits)
			res.add(p)
		}
	}
	res.sort()
	for i, r := range res.Readings[:min(followedPulses, len(res.Readings))] {
		res.Readings[i] = r.tryDrift(o)
	}
	res.sort()
	for i, r := range res.Readings[:min(improvedPulses, len(res.Readings))] {
		res.Readings[i] = r.trySwings(o).improve(o)
	}
	res.finish()
	if o.Quarter == 0 {
		res.straightFirst()
	}
	switch {
	case len(part) < len(taps):
		return res.readWhole(taps, o)
	case res.Free != nil && (len(res.Readings) == 0 || res.Readings[0].Saved <= 0):
		r := res.Free.row
		r.bound = true
		res.nearest(r.alignLoops(res.Free.Places, o, math.Inf(1)))
	}
	return res
}

// How many of the shortest readings are tried with another drift, and how many with other
// swings and loops; and how many bits longer than the shortest a reading may be before
// that.
const (
	followedPulses = 6
	improvedPulses = 3
	improvable     = 40
)

// freeReadings reads the taps on every pulse, and returns those whose count is the
// cheapest, one for each way of counting.
func (o Options) freeReadings(taps []float64) []*free {
	const rough, kept = 40, 12
	var all []*free
	for _, p := range o.pulses(taps) {
		scatter := 0.1 * p.Milliseconds
		if o.Tolerance > 0 {
			scatter = o.Tolerance / 2
		}
		if f := p.readFree(taps, scatter, 4, false); f != nil {
			all = append(all, f)
		}
	}
	sortCounts(all)
	all = all[:min(rough, len(all))]
	for i, f := range all {
		if again := f.recount(taps, kept, false); again != nil {
			all[i] = again
		}
	}
	sortCounts(all)
	known := map[string]bool{}
	all = slices.DeleteFunc(all, func(f *free) bool {
		key := fmt.Sprint(f.places)
		again := known[key]
		known[key] = true
		return again
	})
	if o.Quarter == 0 && len(all) > mostPulses {
		all = all[:mostPulses]
	}
	return all
}

func sortCounts(all []*free) {
	slices.SortStableFunc(all, func(a, b *free) int { return cmp.Compare(a.bits, b.bits) })
}

func (f *free) row(taps []float64) row {
	return row{n: len(taps), taps: taps, pulse: f.pulse, scatter: f.scatter}
}

// readWhole reads all taps of a long take on the pulse that is best on its
// beginning.
func (res Result) readWhole(taps []float64, o Options) Result {
	from := res.Free
	if len(res.Readings) > 0 {
		from = res.Readings[0]
	}
	if from == nil {
		return Result{}
	}
	f := from.Pulse.readFree(taps, from.Scatter, 6, false)
	if f == nil {
		return Result{}
	}
	r := f.row(taps)
	all := Result{Free: f.reading(r)}
	all.add(r.alignLoops(f.places, o, math.Inf(1)))
	all.finish()
	return all
}

// fast is a pulse, in milliseconds, that is hardly an eighth: quarters would come at 160 a
// minute.
const fast = 60_000 / 160 / 2

// straightFirst puts a straight reading before a swung one of even cycles that is little
// shorter: it has the same moments on a finer pulse. If that is fast, the shorter reading
// stays first: triplets are rather heard as a swung pulse.
func (res *Result) straightFirst() {
	const little = 4
	all := res.Readings
	if len(all) == 0 || !all[0].Pulse.isSwung() || !all[0].hasEvenCycles() {
		return
	}
	i := slices.IndexFunc(all, func(r *Reading) bool {
		return !r.Pulse.isSwung() && r.Bits <= all[0].Bits+little && r.Pulse.Milliseconds >= fast
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
	if !r.Pulse.isSwung() {
		return false
	}
	for _, s := range r.Segments {
		if slices.ContainsFunc(s.Steps, func(step Step) bool { return step.Pulses%2 != 0 }) {
			return false
		}
	}
	return true
}
