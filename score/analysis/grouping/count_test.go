package grouping_test

import (
	"math/big"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	. "tieover/score/analysis/grouping"

	"tieover/score/beat"
)

// Sequences of the On-Line Encyclopedia of Integer Sequences, by number.
func TestCounts(t *testing.T) {
	orders := func(c Counts) *big.Int { return c.Orders }
	necklaces := func(c Counts) *big.Int { return c.Necklaces }
	bracelets := func(c Counts) *big.Int { return c.Bracelets }
	for _, c := range []struct {
		source string
		parts  Parts
		which  func(Counts) *big.Int
		terms  []int64 // from 1 on
	}{
		{"A182097", Parts{2, 3}, orders, []int64{0, 1, 1, 1, 2, 2, 3, 4, 5, 7, 9, 12, 16, 21, 28, 37, 49, 65, 86, 114, 151, 200, 265, 351}},
		{"A000045, from memory", Parts{1, 2}, orders, []int64{1, 2, 3, 5, 8, 13, 21, 34, 55, 89, 144, 233, 377, 610}},
		{"A127687", Parts{2, 3}, necklaces, []int64{0, 1, 1, 1, 1, 2, 1, 2, 2, 3, 2, 4, 3, 5, 6, 7, 7, 11, 11, 16}},
		{"A127685; R. Bisdorff, J.-L. Marichal (2008)", Parts{2, 3}, bracelets, []int64{0, 1, 1, 1, 1, 2, 1, 2, 2, 3, 2, 4, 3, 5, 5, 7, 6, 10, 9, 14}},
		{"A000358, number from memory", Parts{1, 2}, necklaces, []int64{1, 2, 2, 3, 3, 5, 5, 8, 10, 15, 19, 31, 41, 64, 94}},
	} {
		for i, want := range c.terms {
			assert.Equal(t, want, c.which(c.parts.Count(i+1)).Int64(), "%s: n = %d", c.source, i+1)
		}
	}
}

// All cyclic compositions of n are those into 1, 2 … n parts.
func TestCountsOfAttacks(t *testing.T) {
	sum := func(n int, which func(Counts) *big.Int) int64 {
		total := new(big.Int)
		for k := 1; k <= n; k++ {
			total.Add(total, which(CountAttacks(k, n)))
		}
		return total.Int64()
	}
	for i, want := range []int64{1, 2, 3, 5, 7, 13, 19, 35, 59, 107, 187, 351, 631, 1181} { // A008965; A000031 less 1
		assert.Equal(t, want, sum(i+1, func(c Counts) *big.Int { return c.Necklaces }), "n = %d", i+1)
	}
	for i, want := range []int64{1, 2, 3, 5, 7, 12, 17, 29, 45, 77, 125, 223, 379, 686} { // A000029 less 1, number from memory
		assert.Equal(t, want, sum(i+1, func(c Counts) *big.Int { return c.Bracelets }), "n = %d", i+1)
	}
	for _, r := range table(t, "onset-counts") {
		c := CountAttacks(r.int(t, "k"), r.int(t, "n"))
		assert.EqualValues(t, r.int(t, "necklaces"), c.Necklaces.Int64(), r)
		assert.EqualValues(t, r.int(t, "bracelets"), c.Bracelets.Int64(), r)
	}
}

// Every order of 2s and 3s of the lists is there, and as many necklaces.
func TestListsOfTwosAndThrees(t *testing.T) {
	for _, r := range table(t, "lists") {
		c := Parts{2, 3}.Count(r.int(t, "n"))
		assert.EqualValues(t, r.int(t, "compositions"), c.Orders.Int64(), r)
		assert.EqualValues(t, r.int(t, "necklaces"), c.Necklaces.Int64(), r)
		seen := map[string]bool{}
		for _, word := range strings.Fields(r["list"]) {
			var sizes []int
			for _, digit := range word {
				sizes = append(sizes, int(digit-'0'))
			}
			seen[strings.ReplaceAll(beat.Sum(Necklace(sizes)), "+", "")] = true
		}
		assert.Len(t, seen, r.int(t, "necklaces"), r)
		for _, least := range strings.Fields(r["least"]) {
			assert.True(t, seen[least], least)
		}
	}
}

// Mirror images of 2s and 3s first differ at 15, then at 17 to 20; computed
// independently.
func TestMirrorImages(t *testing.T) {
	for n := 1; n <= 20; n++ {
		c := Parts{2, 3}.Count(n)
		differs := n == 15 || n >= 17
		assert.Equal(t, differs, c.Necklaces.Cmp(c.Bracelets) != 0, "n = %d", n)
	}
}
