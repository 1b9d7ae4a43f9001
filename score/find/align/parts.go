package align

import (
	"cmp"
	"math"
	"slices"
)

// Together is several parts on one clock, read with one pulse and one tempo.
type Together struct {
	Pulse   *Pulse
	Scatter float64 // of all taps, in milliseconds
	Parts   []Part
}

// Part is one of several parts.
type Part struct {
	Result
	First int64     // where its first attack is, in pulses from the first of all
	Late  []float64 // how late each tap is, in milliseconds
}

// millis is how many parts a pulse has where each part is read in the time that all parts
// have together.
const millis = 1000

// Parts reads parts whose taps, in milliseconds, ascend and count from the same
// moment. ok is false when no pulse counts them.
func Parts(parts [][]float64, o Options) (best *Together, ok bool) {
	all, part := merge(parts)
	least := math.Inf(1)
	for _, p := range o.partPulses(parts) {
		const kept = 12
		f := p.readFree(all, 0.1*p.Milliseconds, kept, true)
		if f == nil {
			continue
		}
		if f = f.recount(all, kept, true); f == nil {
			continue
		}
		if t, bits := f.readParts(all, part, len(parts), o); t != nil && bits < least {
			best, least = t, bits
		}
	}
	return best, best != nil
}

// merge returns the taps of all parts in order, and the part of each.
func merge(parts [][]float64) (all []float64, part []int) {
	type tap struct {
		at   float64
		part int
	}
	var taps []tap
	for k, p := range parts {
		for _, at := range p {
			taps = append(taps, tap{at, k})
		}
	}
	slices.SortStableFunc(taps, func(a, b tap) int { return cmp.Compare(a.at, b.at) })
	for _, t := range taps {
		all, part = append(all, t.at), append(part, t.part)
	}
	return all, part
}

// partPulses lists the pulses on which each part by itself is shortest.
func (o Options) partPulses(parts [][]float64) []*Pulse {
	const each = 3
	var all []*Pulse
	for _, taps := range parts {
		for _, r := range Taps(taps, o).best(each) {
			same := func(p *Pulse) bool {
				return p.Swing == r.Pulse.Swing && math.Abs(p.Milliseconds/r.Pulse.Milliseconds-1) < 0.005
			}
			if !slices.ContainsFunc(all, same) {
				all = append(all, r.Pulse)
			}
		}
	}
	return all
}

// best returns the first readings, or the bare one if there are none.
func (res Result) best(most int) []*Reading {
	if len(res.Readings) == 0 && res.Free != nil {
		return []*Reading{res.Free}
	}
	return res.Readings[:min(most, len(res.Readings))]
}

// readParts reads each part in the time of all of them.
func (f *free) readParts(all []float64, part []int, parts int, o Options) (t *Together, bits float64) {
	t, bits = &Together{Pulse: f.pulse, Scatter: f.scatter}, f.pulse.bits
	for k := range parts {
		var own []float64 // in thousandths of a pulse
		var p Part
		for i, at := range all {
			if part[i] == k {
				late := at - f.trackers[i].place
				own = append(own, millis*(float64(f.places[i])+late/f.trackers[i].pulse))
				p.Late = append(p.Late, late)
			}
		}
		if p.Result = o.readInTime(own, millis*f.scatter/f.pulse.Milliseconds, f.pulse); p.Free == nil {
			return nil, 0
		}
		p.First = int64(math.Round(own[0] / millis))
		t.Parts = append(t.Parts, p)
		bits += p.Best().Bits + float64(len(own))*math.Log2(f.pulse.Milliseconds/millis)
	}
	return t, bits
}

// readInTime reads a part whose time is known: a pulse lasts millis and hardly drifts. The
// pulses are counted again, for two attacks may have been counted on one.
func (o Options) readInTime(taps []float64, scatter float64, as *Pulse) (res Result) {
	p := &Pulse{Milliseconds: millis, Parts: as.Parts, unsure: 0.001, wander: 0.002, drifts: pulseWander}
	for i := range taps {
		if i > 0 && taps[i] <= taps[i-1] {
			return Result{}
		}
	}
	f := p.count(taps, scatter, 12, false)
	if f == nil {
		return Result{}
	}
	f.weigh(taps)
	r := f.row(taps)
	res.Free = f.reading(r)
	if best := r.alignLoops(f.places, o, math.Inf(1)); best != nil {
		if best = best.rescatter(o); r.n <= longTake {
			best = best.improve(o)
		}
		res.add(best)
	}
	res.addProcess(r, f.places, o)
	if res.finish(); len(res.Readings) == 0 {
		r.bound = true
		res.nearest(r.alignLoops(f.places, o, math.Inf(1)))
	}
	return res
}
