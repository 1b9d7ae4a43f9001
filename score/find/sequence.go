package find

import "tieover/score/process"

// period returns the smallest period of items, the last of which may be cut short. ok is
// false when nothing repeats.
func period(items []Item) (p int, ok bool) {
	n := len(items)
	if n < 2 {
		return 0, false
	}
	borders := prefixes(n-1, func(i, j int) bool { return items[i] == items[j] })
	last := items[n-1]
	for b := borders[n-2]; ; b = borders[b-1] {
		p = n - 1 - b
		if want := items[n-1-p]; want.Blank == last.Blank && last.Size <= want.Size {
			return p, p < n-1 || want == last
		}
		if b == 0 {
			return 0, false
		}
	}
}

// prefixes is the prefix function (Knuth, Morris, Pratt 1977, from memory): for
// each i the length of the longest proper prefix of the first i+1 values that
// is also their suffix.
func prefixes(n int, same func(i, j int) bool) []int {
	borders := make([]int, n)
	for i := 1; i < n; i++ {
		b := borders[i-1]
		for b > 0 && !same(i, b) {
			b = borders[b-1]
		}
		if same(i, b) {
			b++
		}
		borders[i] = b
	}
	return borders
}

// rotations returns by how many places to the left a row must be turned to become
// another of as many values, the fewest first; 0 where they are the same.
func rotations[T comparable](row, other []T) []int {
	m := len(row)
	at := func(i int) T { // the other, then the row twice
		if i < m {
			return other[i]
		}
		return row[(i-m)%m]
	}
	borders := prefixes(3*m-1, func(i, j int) bool { return j < m && at(i) == at(j) })
	var all []int
	for r := range m {
		if borders[2*m-1+r] == m {
			all = append(all, r)
		}
	}
	return all
}

// rotation returns the rotation that makes the first groups, or pitches, the second. ok
// is false when there is none, or they are the same from there on.
func rotation[T comparable](first, second []T) (p process.Rule, ok bool) {
	m := len(first)
	if len(second) != m {
		return p, false
	}
	for _, r := range rotations(first, second) {
		if r > 0 {
			return process.Rule{Kind: process.Rotate, By: shorterMove(int64(r), int64(m))}, true
		}
	}
	return p, false
}

// orderChanges suggests rotation and retrograde: of groups, or of pitches.
func orderChanges[T comparable](first, second []T) []process.Rule {
	var all []process.Rule
	m := len(first)
	if len(second) != m {
		return nil
	}
	if p, ok := rotation(first, second); ok {
		all = append(all, p)
	}
	for i := range first {
		if first[i] != second[m-1-i] {
			return all
		}
	}
	return append(all, process.Rule{Kind: process.Retrograde})
}

// weight is a number of an item for sums: rows of different sums do not have the same items
// in any order, and other rows hardly ever have the same sum.
func (i Item) weight() uint64 {
	n := 2 * uint64(i.Size)
	if i.Blank {
		n++
	}
	return mix(n)
}

// mix spreads a number over 64 bits.
func mix(n uint64) uint64 {
	n *= 0x9E3779B97F4A7C15 // 2^64 by the golden ratio
	n ^= n >> 29
	return n * n
}

// prefixWeights returns the sum of the weights of the first items, for each number of
// them.
func prefixWeights(items []Item) []uint64 {
	sums := make([]uint64, len(items)+1)
	for i, item := range items {
		sums[i+1] = sums[i] + item.weight()
	}
	return sums
}
