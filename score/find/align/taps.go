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
		gaps := gapsOf(f.places)
		bits := f.bits(part)
		if res.Free == nil || bits < res.Free.Bits {
			res.Free = r.bareReading(gaps, f)
			res.Free.Bits = bits
		}
		best := r.alignLoops(gaps, f.places, o, least+improvable)
		if best != nil {
			best = best.rescatter(o)
			least = min(least, best.Bits)
			res.add(best)
		}
		if len(part) < len(taps) || best != nil && best.isPlain() {
			continue // no process is looked for in long takes, nor where a loop says all
		}
		if p := r.alignProcesses(gaps, o, min(least, bits)+improvable); p != nil {
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
		res.nearest(r.alignLoops(gapsOf(res.Free.Places), res.Free.Places, o, math.Inf(1)))
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
	f := from.Pulse.count(taps, from.Scatter, 6, false)
	if f == nil {
		return Result{}
	}
	f.scatter = scatterOf(f.late[1:], from.Pulse.Milliseconds)
	r := f.row(taps)
	var all Result
	all.Free = r.bareReading(gapsOf(f.places), f)
	all.Free.Bits = f.bits(taps)
	all.add(r.alignLoops(gapsOf(f.places), f.places, o, math.Inf(1)))
	all.finish()
	return all
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
