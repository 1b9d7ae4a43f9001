package grouping

import "slices"

// Euclid spreads k onsets over n units by repeated grouping, as listed in
// Toussaint, "The Euclidean algorithm generates traditional musical rhythms"
// (BRIDGES 2005): k strings "x" and n-k strings "." are paired until at most
// one string is left over. 1 <= k <= n.
func Euclid(k, n int) Rhythm {
	heads, tails := make([][]bool, k), make([][]bool, n-k)
	for i := range heads {
		heads[i] = []bool{true}
	}
	for i := range tails {
		tails[i] = []bool{false}
	}
	// The 2005 list pairs once even when a single rest is left (x.xx, not
	// xxx.); a later paper stops there.
	for first := true; len(tails) > 1 || first && len(tails) > 0; first = false {
		paired := min(len(heads), len(tails))
		rest := tails[paired:]
		if len(rest) == 0 {
			rest = heads[paired:]
		}
		for i := range paired {
			heads[i] = append(heads[i], tails[i]...)
		}
		heads, tails = heads[:paired], rest
	}
	r := Rhythm{Units: n}
	for at, x := range slices.Concat(slices.Concat(heads, tails)...) {
		if x {
			r.Onsets = append(r.Onsets, at)
		}
	}
	return r
}

// IsEuclidean reports whether the rhythm is some rotation of Euclid's: the
// same as being maximally even, which is tested against the rounded-down
// division of the circle because that takes linear time.
func (r Rhythm) IsEuclidean() bool {
	k := len(r.Onsets)
	if k == 0 {
		return false
	}
	even := Rhythm{Units: r.Units, Onsets: make([]int, k)}
	for i := range even.Onsets {
		even.Onsets[i] = i * r.Units / k
	}
	_, ok := TurnTo(r.Gaps(), even.Gaps())
	return ok
}

// Class sorts vectors of groups by the test for Euclidean strings of Ellis,
// Ruskey, Sawada and Simpson (2003).
type Class byte

const (
	Neither         Class = '-'
	EuclideanString Class = 'E'
	ReverseString   Class = 'R' // read backwards it is a Euclidean string
)

// ClassOf raises the first number by 1 and lowers the last by 1: a Euclidean
// string becomes a rotation of itself.
func ClassOf(groups []int) Class {
	if isEuclideanString(groups) {
		return EuclideanString
	}
	if isEuclideanString(Mirror(groups)) {
		return ReverseString
	}
	return Neither
}

func isEuclideanString(groups []int) bool {
	if len(groups) == 0 {
		return false
	}
	moved := slices.Clone(groups)
	moved[0]++
	moved[len(moved)-1]--
	_, ok := TurnTo(groups, moved)
	return ok
}

// Aksak is the class of a sum built from 2s and 3s (Arom 2004).
type Aksak string

const (
	Authentic Aksak = "authentic" // prime
	Quasi     Aksak = "quasi"     // odd, not prime
	Pseudo    Aksak = "pseudo"    // even
)

// AksakOf returns the class of groups of 2 and 3 that hold both; ok is
// false for any other groups.
func AksakOf(groups []int) (class Aksak, ok bool) {
	if !slices.Contains(groups, 2) || !slices.Contains(groups, 3) || !AreTwosAndThrees(groups) {
		return "", false
	}
	return aksakSum(sum(groups)), true
}

// AreTwosAndThrees reports whether there are no groups but 2s and 3s.
func AreTwosAndThrees(groups []int) bool {
	return !slices.ContainsFunc(groups, func(n int) bool { return n != 2 && n != 3 })
}

// aksakSum returns the class of a sum of at least 5.
func aksakSum(n int) Aksak {
	if n%2 == 0 {
		return Pseudo
	}
	for d := 3; d*d <= n; d += 2 {
		if n%d == 0 {
			return Quasi
		}
	}
	return Authentic
}
