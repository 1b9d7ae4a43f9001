package grouping

import (
	"math"
	"math/cmplx"
	"slices"

	"tieover/score/beat"
)

// Distances counts pairs of onsets by their distance on the circle: index d
// holds how many pairs lie d units apart the shorter way, d in [0, Units/2].
// It takes quadratic time.
func (r Rhythm) Distances() []int {
	count := make([]int, r.Units/2+1)
	for i, a := range r.Onsets {
		for _, b := range r.Onsets[i+1:] {
			count[min(b-a, r.Units-b+a)]++
		}
	}
	return count
}

// DistinctDistances returns how many different distances occur.
func (r Rhythm) DistinctDistances() int {
	n := 0
	for _, pairs := range r.Distances() {
		if pairs > 0 {
			n++
		}
	}
	return n
}

// DistinctGaps returns how many different distances occur between neighbors.
func (r Rhythm) DistinctGaps() int {
	gaps := r.Gaps()
	slices.Sort(gaps)
	return len(slices.Compact(gaps))
}

// IsDeep reports whether each occurring distance occurs a different number of
// times (Demaine et al. 2009).
func (r Rhythm) IsDeep() bool {
	seen := map[int]bool{}
	for _, pairs := range r.Distances() {
		if pairs > 0 && seen[pairs] {
			return false
		}
		seen[pairs] = true
	}
	return true
}

// HasOddity reports whether no two onsets divide the cycle in halves. A cycle
// of an odd number of units cannot be halved and always has it.
func (r Rhythm) HasOddity() bool {
	if r.Units%2 == 1 {
		return true
	}
	at := map[int]bool{}
	for _, o := range r.Onsets {
		at[o] = true
	}
	for _, o := range r.Onsets {
		if at[(o+r.Units/2)%r.Units] {
			return false
		}
	}
	return true
}

// OffBeatness counts the onsets at places that share no factor with the
// number of units: the places on no regular pulse but the fastest.
func (r Rhythm) OffBeatness() int {
	n := 0
	for _, o := range r.Onsets {
		if beat.GCD(o, r.Units) == 1 {
			n++
		}
	}
	return n
}

// Balance is 1 minus the distance of the onsets' center of gravity from the
// middle of the circle (Milne, Bulger and Herff 2018): 1 is balanced.
func (r Rhythm) Balance() float64 { return 1 - r.spectrum(1) }

// DFT returns the K-th Fourier coefficient's magnitude over K, for K onsets: 1
// when the onsets divide the circle evenly.
func (r Rhythm) DFT() float64 { return r.spectrum(len(r.Onsets)) }

// Spectrum returns the magnitudes of the Fourier coefficients of order 0 to
// Units/2, not divided by the number of onsets; the others mirror these. It takes
// quadratic time.
func (r Rhythm) Spectrum() []float64 {
	all := make([]float64, r.Units/2+1)
	for k := range all {
		all[k] = r.spectrum(k) * float64(len(r.Onsets))
	}
	return all
}

func (r Rhythm) spectrum(k int) float64 {
	var total complex128
	for _, o := range r.Onsets {
		total += turn(float64(k*o%r.Units) / float64(r.Units))
	}
	return cmplx.Abs(total) / float64(len(r.Onsets))
}

// Evenness compares each onset, in order, with its place in an even division
// (Milne's first coefficient of the ordered onsets): 1 is even.
func (r Rhythm) Evenness() float64 {
	var total complex128
	k := float64(len(r.Onsets))
	for i, o := range r.Onsets {
		total += turn(float64(o)/float64(r.Units) - float64(i)/k)
	}
	return cmplx.Abs(total) / k
}

// turn is the point on the unit circle after that part of a whole turn.
func turn(part float64) complex128 {
	sin, cos := math.Sincos(2 * math.Pi * part)
	return complex(cos, sin)
}

// Chords is the sum of the straight distances between all pairs of onsets on
// a circle of radius 1. It takes quadratic time.
func (r Rhythm) Chords() float64 {
	total := 0.0
	for d, pairs := range r.Distances() {
		total += float64(pairs) * 2 * math.Sin(math.Pi*float64(d)/float64(r.Units))
	}
	return total
}

// NPVI is the normalized pairwise variability of the durations, from 0 for
// equal ones, up to 200. It is not wrapped round the cycle (Toussaint 2013).
// Fewer than two durations do not vary.
func NPVI(durations []int) float64 {
	if len(durations) < 2 {
		return 0
	}
	total := 0.0
	for i, d := range durations[1:] {
		a, b := float64(durations[i]), float64(d)
		total += math.Abs(a-b) / ((a + b) / 2)
	}
	return 100 * total / float64(len(durations)-1)
}
