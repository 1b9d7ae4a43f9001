package grouping

import (
	"math/big"
	"slices"

	"tieover/score/beat"
)

// Counts is how many ways there are to divide a cycle.
type Counts struct {
	Orders    *big.Int // the order counting; nil where it is not asked for
	Necklaces *big.Int // rotations being one
	Bracelets *big.Int // mirror images being one too
}

// Parts is a set of sizes that groups may have, ascending.
type Parts []int

func (p Parts) upTo(n int) []int {
	k, _ := slices.BinarySearch(p, n+1)
	return p[:k]
}

// Count returns how many cycles of n pulses the parts make, n at least 1.
func (p Parts) Count(n int) Counts {
	ways := p.compositions(n)
	c := Counts{Orders: ways[n], Necklaces: p.necklaces(n, ways)}
	c.Bracelets = p.bracelets(n, ways, c.Necklaces)
	return c
}

// compositions returns in how many ways n is a sum of the parts, order
// counting: index i of the result is for i, from 0 to n.
func (p Parts) compositions(n int) []*big.Int {
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

// necklaces counts the cyclic compositions of n.
func (p Parts) necklaces(n int, ways []*big.Int) *big.Int {
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

// bracelets halves the necklaces and those that an axis maps to themselves.
func (p Parts) bracelets(n int, ways []*big.Int, necklaces *big.Int) *big.Int {
	total := new(big.Int).Set(necklaces)
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
// is the edge of a part (only at a place) or the middle of a part of that parity.
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

// CountAttacks returns how many rhythms of k attacks in n pulses there are up to
// rotation, and up to reflection too; 1 <= k <= n.
func CountAttacks(k, n int) Counts {
	total := new(big.Int)
	for d := 1; d <= n; d++ {
		if n%d == 0 && k%d == 0 {
			term := new(big.Int).Binomial(int64(n/d), int64(k/d))
			total.Add(total, term.Mul(term, big.NewInt(int64(totient(d)))))
		}
	}
	c := Counts{Necklaces: total.Div(total, big.NewInt(int64(n)))}
	half := n / 2
	if n%2 == 0 && k%2 == 1 {
		half--
	}
	both := new(big.Int).Binomial(int64(half), int64(k/2)) // an axis maps to themselves
	c.Bracelets = both.Rsh(both.Add(both, c.Necklaces), 1)
	return c
}

func totient(n int) int {
	count := 0
	for i := 1; i <= n; i++ {
		if beat.GCD(i, n) == 1 {
			count++
		}
	}
	return count
}
