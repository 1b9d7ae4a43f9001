package grouping

import (
	"slices"

	"tieover/score/beat"
)

// LeastRotation returns the index at which the lexicographically least
// rotation of the sequence starts; of several the first. Two pointers race
// round the circle (Duval's method), so it takes linear time.
func LeastRotation(sizes []int) int {
	n := len(sizes)
	i, j, k := 0, 1, 0
	for i < n && j < n && k < n {
		a, b := sizes[(i+k)%n], sizes[(j+k)%n]
		switch {
		case a == b:
			k++
			continue
		case a > b:
			i += k + 1
		default:
			j += k + 1
		}
		if i == j {
			j++
		}
		k = 0
	}
	return min(i, j)
}

// Turn returns the sequence started at index k.
func Turn(sizes []int, k int) []int {
	return append(slices.Clone(sizes[k:]), sizes[:k]...)
}

// Mirror returns the sequence read backwards.
func Mirror(sizes []int) []int {
	mirror := slices.Clone(sizes)
	slices.Reverse(mirror)
	return mirror
}

// Necklace returns the canonical form of all rotations of the sequence: the
// lexicographically least one.
func Necklace(sizes []int) []int { return Turn(sizes, LeastRotation(sizes)) }

// Bracelet returns the canonical form of all rotations of the sequence and of
// its mirror image.
func Bracelet(sizes []int) []int {
	a, b := Necklace(sizes), Necklace(Mirror(sizes))
	if slices.Compare(b, a) < 0 {
		return b
	}
	return a
}

// TurnTo returns the least k for which Turn(from, k) equals to; ok is false
// when to is no rotation of from.
func TurnTo(from, to []int) (k int, ok bool) {
	if len(from) != len(to) || sum(from) != sum(to) || !slices.Equal(Necklace(from), Necklace(to)) {
		return 0, false
	}
	period := Period(from)
	k = beat.Mod(LeastRotation(from)-LeastRotation(to), len(from)) % period
	return k, true
}

// Period returns after how many items the sequence repeats round the circle;
// its length when it has no shorter period.
func Period(sizes []int) int {
	n := len(sizes)
	for p := 1; p < n; p++ {
		if n%p == 0 && slices.Equal(sizes[p:], sizes[:n-p]) {
			return p
		}
	}
	return n
}

// LongFirst returns the index at which the lexicographically greatest
// rotation starts: the hearing that puts the long groups first.
func LongFirst(sizes []int) int {
	negated := make([]int, len(sizes))
	for i, s := range sizes {
		negated[i] = -s
	}
	return LeastRotation(negated)
}
