package grouping

import (
	"iter"
	"math/big"
	"slices"
)

// Parts is a set of sizes that groups may have, ascending. A nil Parts allows
// every size.
type Parts []int

func (p Parts) upTo(n int) []int {
	if p == nil {
		all := make([]int, n)
		for i := range all {
			all[i] = i + 1
		}
		return all
	}
	k, _ := slices.BinarySearch(p, n+1)
	return p[:k]
}

// Compositions returns in how many ways n is a sum of the parts, order
// counting: index i of the result is for i, from 0 to n.
func (p Parts) Compositions(n int) []*big.Int {
	ways := []*big.Int{big.NewInt(1)}
	for i := 1; i <= n; i++ {
		total := new(big.Int)
		for _, size := range p.upTo(i) {
			total.Add(total, ways[i-size])
		}
		ways = append(ways, total)
	}
	return ways
}

// CompositionsInto returns in how many ways n is a sum of k positive numbers.
func CompositionsInto(n, k int) *big.Int {
	return new(big.Int).Binomial(int64(n-1), int64(k-1))
}

// List yields the compositions of n into the parts in lexicographic order. The
// slice is the caller's.
func (p Parts) List(n int) iter.Seq[[]int] {
	return func(yield func([]int) bool) { p.list(n, nil, yield) }
}

func (p Parts) list(left int, so []int, yield func([]int) bool) bool {
	if left == 0 {
		return yield(slices.Clone(so))
	}
	for _, size := range p.upTo(left) {
		if !p.list(left-size, append(so, size), yield) {
			return false
		}
	}
	return true
}

// Necklaces returns how many cyclic compositions n has, rotations being one.
func (p Parts) Necklaces(n int) *big.Int {
	ways := p.Compositions(n)
	total := new(big.Int)
	for d := 1; d <= n; d++ {
		if n%d != 0 {
			continue
		}
		term := big.NewInt(int64(totient(n / d)))
		total.Add(total, term.Mul(term, p.closed(d, ways)))
	}
	return total.Div(total, big.NewInt(int64(n)))
}

// closed counts the ways to tile a circle of d numbered places: place 0 is one
// of the places of some part, the rest is a composition. For 2s and 3s these
// are the Perrin numbers.
func (p Parts) closed(d int, ways []*big.Int) *big.Int {
	total := new(big.Int)
	for _, size := range p.upTo(d) {
		term := big.NewInt(int64(size))
		total.Add(total, term.Mul(term, ways[d-size]))
	}
	return total
}

// Bracelets returns how many cyclic compositions n has, rotations and mirror
// images being one.
func (p Parts) Bracelets(n int) *big.Int {
	ways := p.Compositions(n)
	total := p.Necklaces(n)
	if n%2 == 1 {
		total.Add(total, p.mirrored(n, 0, 1, ways))
	} else {
		both := p.mirrored(n, 0, 0, ways)
		both.Add(both, p.mirrored(n, 1, 1, ways))
		total.Add(total, both.Rsh(both, 1))
	}
	return total.Rsh(total, 1)
}

// mirrored counts the tilings that one axis maps to themselves. Each end of
// the axis meets the circle at a place (0) or between two places (1): there
// a part edge stands (only at a place) or the middle of a part of that parity.
func (p Parts) mirrored(n, oneEnd, otherEnd int, ways []*big.Int) *big.Int {
	ends := func(parity int) []int {
		var sizes []int
		if parity == 0 {
			sizes = append(sizes, 0)
		}
		for _, size := range p.upTo(n) {
			if size%2 == parity {
				sizes = append(sizes, size)
			}
		}
		return sizes
	}
	total := new(big.Int)
	for _, a := range ends(oneEnd) {
		for _, b := range ends(otherEnd) {
			if left := n - a - b; left >= 0 {
				total.Add(total, ways[left/2])
			}
		}
	}
	return total
}

// OnsetNecklaces returns how many rhythms of k onsets in n units there are,
// rotations being one; OnsetBracelets when mirror images are one too.
func OnsetNecklaces(n, k int) *big.Int {
	total := new(big.Int)
	for d := 1; d <= n; d++ {
		if n%d == 0 && k%d == 0 {
			term := new(big.Int).Binomial(int64(n/d), int64(k/d))
			total.Add(total, term.Mul(term, big.NewInt(int64(totient(d)))))
		}
	}
	return total.Div(total, big.NewInt(int64(n)))
}

// OnsetBracelets is described at OnsetNecklaces.
func OnsetBracelets(n, k int) *big.Int {
	half := n / 2
	if n%2 == 0 && k%2 == 1 {
		half--
	}
	total := new(big.Int).Binomial(int64(half), int64(k/2))
	total.Add(total, OnsetNecklaces(n, k))
	return total.Rsh(total, 1)
}

func totient(n int) int {
	count := 0
	for i := 1; i <= n; i++ {
		if gcd(i, n) == 1 {
			count++
		}
	}
	return count
}
