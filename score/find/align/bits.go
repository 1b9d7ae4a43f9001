package align

import (
	"math"
	"math/bits"
)

// Gamma is the length of a positive whole number in Elias's gamma code:
// 2·⌊log2 k⌋ + 1 bits (Elias 1975, from memory). Zero costs as much as one, a
// negative number as much as its positive.
func Gamma(k int64) float64 {
	if k < 0 {
		k = -k
	}
	return float64(2*(bits.Len64(uint64(max(k, 1)))-1) + 1)
}

// Bits of the parts of a description, without their numbers.
const (
	kindBits  = 3 // which kind of description, or of segment, follows
	SlipBits  = 2 // which exception: missing, too many, longer or shorter
	RareBits  = 4 // which exception: again, left out, swapped, a pause
	pauseBits = 3 // that a pause has a length of its own
	SignBits  = 1 // of a number that may be negative
)

// alphabetBits is what it costs to name the different sizes of a list.
func alphabetBits(sizes map[int]bool) float64 {
	cost := Gamma(int64(len(sizes)))
	for size := range sizes { // whole bits: the order of adding does not matter
		cost += Gamma(int64(size))
	}
	return cost
}

// GroupsBits is what a list of groups costs: the different sizes once, how many
// groups there are, then each as one of the sizes.
func GroupsBits(groups []int) float64 {
	sizes := sizeSet(groups)
	return alphabetBits(sizes) + Gamma(int64(len(groups))) + float64(len(groups))*math.Log2(float64(len(sizes)))
}

func sizeSet(groups []int) map[int]bool {
	sizes := map[int]bool{}
	for _, size := range groups {
		sizes[size] = true
	}
	return sizes
}

// WhereBits is what it costs to say which k of n attacks have an exception.
func WhereBits(n, k int) float64 {
	if k == 0 {
		return 0
	}
	ways := func(n int) float64 { x, _ := math.Lgamma(float64(n + 1)); return x }
	return (ways(n)-ways(k)-ways(n-k))/math.Ln2 + Gamma(int64(k+1))
}
