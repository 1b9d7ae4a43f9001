package grouping_test

import (
	"math/big"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	. "tieover/score/analysis/grouping"
)

// Sequences of the On-Line Encyclopedia of Integer Sequences, by number.
func TestCounts(t *testing.T) {
	twoThree, oneTwo := Parts{2, 3}, Parts{1, 2}
	compositions := func(p Parts) func(int) *big.Int {
		return func(n int) *big.Int { return p.Compositions(n)[n] }
	}
	for _, c := range []struct {
		source string
		first  int
		terms  []int64
		count  func(int) *big.Int
	}{
		{"A011782, from memory", 1, []int64{1, 2, 4, 8, 16, 32, 64, 128, 256, 512, 1024, 2048, 4096, 8192}, compositions(nil)},
		{"A182097", 0, []int64{1, 0, 1, 1, 1, 2, 2, 3, 4, 5, 7, 9, 12, 16, 21, 28, 37, 49, 65, 86, 114, 151, 200, 265, 351}, compositions(twoThree)},
		{"A000045, from memory", 0, []int64{1, 1, 2, 3, 5, 8, 13, 21, 34, 55, 89, 144, 233, 377, 610}, compositions(oneTwo)},
		{"A008965", 1, []int64{1, 2, 3, 5, 7, 13, 19, 35, 59, 107, 187, 351, 631, 1181}, Parts(nil).Necklaces},
		{"A000029 less 1, number from memory", 1, []int64{1, 2, 3, 5, 7, 12, 17, 29, 45, 77, 125, 223, 379, 686}, Parts(nil).Bracelets},
		{"A127687", 1, []int64{0, 1, 1, 1, 1, 2, 1, 2, 2, 3, 2, 4, 3, 5, 6, 7, 7, 11, 11, 16}, twoThree.Necklaces},
		{"A127685; R. Bisdorff, J.-L. Marichal (2008)", 1, []int64{0, 1, 1, 1, 1, 2, 1, 2, 2, 3, 2, 4, 3, 5, 5, 7, 6, 10, 9, 14}, twoThree.Bracelets},
		{"A000358, number from memory", 1, []int64{1, 2, 2, 3, 3, 5, 5, 8, 10, 15, 19, 31, 41, 64, 94}, oneTwo.Necklaces},
		{"A000031 less 1", 1, []int64{1, 2, 3, 5, 7, 13, 19, 35, 59, 107, 187, 351, 631, 1181, 2191, 4115}, Parts(nil).Necklaces},
	} {
		for i, want := range c.terms {
			assert.Equal(t, want, c.count(c.first+i).Int64(), "%s: n = %d", c.source, c.first+i)
		}
	}
}

// A245332: a sum of 2s and 3s with both, so all but 2+2+… and 3+3+….
func TestCompositionsWithBothParts(t *testing.T) {
	for n, want := range []int{0, 0, 0, 0, 0, 2, 0, 3, 3, 4, 6, 9, 10, 16, 20} {
		got := 0
		for c := range (Parts{2, 3}).List(n) {
			if slices.Contains(c, 2) && slices.Contains(c, 3) {
				got++
			}
		}
		assert.Equal(t, want, got, "n = %d", n)
	}
}

func TestListsOfTwosAndThrees(t *testing.T) {
	for _, r := range table(t, "lists") {
		n := r.int(t, "n")
		var words []string
		necklaces := map[string]bool{}
		for c := range (Parts{2, 3}).List(n) {
			words = append(words, strings.ReplaceAll(Join(c), "+", ""))
			necklaces[strings.ReplaceAll(Join(Necklace(c)), "+", "")] = true
		}
		assert.Equal(t, r["list"], strings.Join(words, " "), r)
		assert.Len(t, words, r.int(t, "compositions"), r)
		assert.Len(t, necklaces, r.int(t, "necklaces"), r)
		for _, least := range strings.Fields(r["least"]) {
			assert.True(t, necklaces[least], least)
		}
	}
}

func TestCompositionsInto(t *testing.T) { // from memory; computed independently
	assert.EqualValues(t, 21, CompositionsInto(8, 3).Int64())
}

func TestOnsetCounts(t *testing.T) {
	for _, r := range table(t, "onset-counts") {
		n, k := r.int(t, "n"), r.int(t, "k")
		assert.EqualValues(t, r.int(t, "necklaces"), OnsetNecklaces(n, k).Int64(), r)
		assert.EqualValues(t, r.int(t, "bracelets"), OnsetBracelets(n, k).Int64(), r)
	}
}

// Mirror images of 2s and 3s first differ at 15, then at 17 to 20; computed
// independently.
func TestMirrorImages(t *testing.T) {
	p := Parts{2, 3}
	for n := 1; n <= 20; n++ {
		differs := n == 15 || n >= 17
		assert.Equal(t, differs, p.Necklaces(n).Cmp(p.Bracelets(n)) != 0, "n = %d", n)
	}
}
