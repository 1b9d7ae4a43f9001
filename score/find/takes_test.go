package find

import (
	"math/rand/v2"
	"slices"
)

// The takes that rates are measured on: 14 loops at 5 tempos, 6 to 12 cycles,
// with Gaussian scatter of every tap by itself. Real taps wander too.
var (
	takeLoops = [][]int64{{3, 3, 2}, {3, 2, 2}, {2, 2, 3, 2}, {3, 3, 2, 2, 2}, {3, 2, 2, 3}, {2, 1, 2, 1, 2}, {3, 3, 4, 2, 4},
		{2, 2, 1, 2, 2, 2, 1}, {3, 2, 3, 2, 2}, {4, 3, 3, 2}, {5, 3, 2}, {2, 3, 2, 2, 3, 3}, {1, 2, 1, 1, 2, 2, 3}, {3, 3, 3, 2, 2}}
	takeTempos = []float64{96, 108, 120, 132, 144}
)

// flaw is what is wrong with a take besides its scatter.
type flaw struct {
	name    string
	swing   float64                                  // share of a pair that its first eighth lasts; 0: half
	drift   bool                                     // by 2 to 5 % over the take
	slip    func(r *rand.Rand, loop []int64) []int64 // one cycle, which is not the first or the last
	missing int                                      // per cent of the taps
	besides int                                      // per cent, on pulses without a tap
}

var flaws = []flaw{
	{name: "even"},
	{name: "drift 2-5 %", drift: true},
	{name: "swing 60:40", swing: 0.6},
	{name: "swing 2:1", swing: 2.0 / 3},
	{name: "missing 3 %", missing: 3},
	{name: "missing 8 %", missing: 8},
	{name: "extra 3 %", besides: 3},
	{name: "extra 8 %", besides: 8},
	{name: "longer", slip: func(r *rand.Rand, v []int64) []int64 { v[r.IntN(len(v))]++; return v }},
	{name: "shorter", slip: func(r *rand.Rand, v []int64) []int64 {
		i := r.IntN(len(v))
		for v[i] < 2 {
			i = r.IntN(len(v))
		}
		v[i]--
		return v
	}},
	{name: "left out", slip: func(r *rand.Rand, v []int64) []int64 { i := r.IntN(len(v)); return slices.Delete(v, i, i+1) }},
	{name: "twice", slip: func(r *rand.Rand, v []int64) []int64 { i := r.IntN(len(v)); return slices.Insert(v, i, v[i]) }},
	{name: "breath", slip: func(r *rand.Rand, v []int64) []int64 { v[r.IntN(len(v))] += 1 + r.Int64N(4); return v }},
	{name: "swapped", slip: func(r *rand.Rand, v []int64) []int64 {
		i := r.IntN(len(v) - 1)
		for v[i] == v[i+1] {
			i = r.IntN(len(v) - 1)
		}
		v[i], v[i+1] = v[i+1], v[i]
		return v
	}},
}

// take is taps in seconds, and what was tapped.
type take struct {
	onsets []float64
	loop   []int64
	tempo  float64
}

func random(seed uint64, stream string) *rand.Rand {
	sum := uint64(0)
	for _, c := range stream {
		sum = sum*31 + uint64(c)
	}
	return rand.New(rand.NewPCG(seed, sum))
}

// newTake taps one loop with a flaw; scatter is in seconds.
func newTake(seed uint64, f flaw, scatter float64) take {
	r := random(seed, f.name)
	loop := takeLoops[r.IntN(len(takeLoops))]
	tempo := takeTempos[r.IntN(len(takeTempos))]
	return take{tapGroups(r, slipped(r, loop, f), f, scatter, tempo), loop, tempo}
}

// slipped is 6 to 12 cycles, one of which may be another.
func slipped(r *rand.Rand, loop []int64, f flaw) []int64 {
	cycles := 6 + r.IntN(7)
	slip := 1 + r.IntN(cycles-2)
	var groups []int64
	for c := range cycles {
		cycle := slices.Clone(loop)
		if c == slip && f.slip != nil {
			cycle = f.slip(r, cycle)
		}
		groups = append(groups, cycle...)
	}
	return groups
}

// tapGroups taps where groups of eighths begin.
func tapGroups(r *rand.Rand, groups []int64, f flaw, scatter, tempo float64) []float64 {
	total := pulsesOf(groups)
	eighth := 30 / tempo
	slower := []float64{.02, .03, .04, .05}[r.IntN(4)] * []float64{1, -1}[r.IntN(2)]
	when := func(place int64) float64 {
		x := float64(place)
		switch {
		case f.drift:
			return eighth * (x - slower*x*x/(2*float64(total)))
		case f.swing > 0:
			return eighth * 2 * (float64(place/2) + f.swing*float64(place%2))
		}
		return eighth * x
	}
	struck := map[int64]bool{}
	var onsets []float64
	now := int64(0)
	tap := func(place int64) { onsets = append(onsets, when(place)+scatter*r.NormFloat64()) }
	for _, g := range groups {
		struck[now] = true
		tap(now)
		now += g
	}
	share := func(percent int) int { return max(1, (len(onsets)*percent+50)/100) }
	if f.missing > 0 {
		for range share(f.missing) {
			i := 1 + r.IntN(len(onsets)-2)
			onsets = slices.Delete(onsets, i, i+1)
		}
	}
	if f.besides > 0 {
		var free []int64
		for place := int64(1); place < total-1; place++ {
			if !struck[place] {
				free = append(free, place)
			}
		}
		for range share(f.besides) {
			tap(free[r.IntN(len(free))])
		}
	}
	return inOrder(onsets, 0.2+2*r.Float64())
}

// inOrder moves onsets to a positive time, sorts them, and parts any that
// coincide.
func inOrder(onsets []float64, from float64) []float64 {
	slices.Sort(onsets)
	for i := range onsets {
		onsets[i] += from
		if i > 0 && onsets[i] <= onsets[i-1] {
			onsets[i] = onsets[i-1] + 0.001
		}
	}
	return onsets
}

func pulsesOf(groups []int64) (total int64) {
	for _, g := range groups {
		total += g
	}
	return total
}
