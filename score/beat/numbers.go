package beat

import (
	"math/bits"
	"strconv"
	"strings"
)

type integer interface{ ~int | ~int64 }

// GCD returns the greatest common divisor of the two magnitudes; GCD(0, n) is
// |n|, and GCD(0, 0) is 1 so that it can always divide.
func GCD[N integer](a, b N) N {
	a, b = magnitude(a), magnitude(b)
	for b != 0 {
		a, b = b, a%b
	}
	return max(a, 1)
}

// LCM returns the least common multiple of two positive numbers. ok is false
// when it does not fit an int64.
func LCM[N integer](a, b N) (n N, ok bool) {
	high, low := bits.Mul64(uint64(a/GCD(a, b)), uint64(b))
	if high != 0 || low > 1<<63-1 {
		return 0, false
	}
	return N(low), true
}

// Mod returns a modulo n in [0, n), also for a negative a. n is positive.
func Mod[N integer](a, n N) N { return a - FloorDiv(a, n)*n }

// FloorDiv returns the greatest whole number that is at most a/n. n is positive.
func FloorDiv[N integer](a, n N) N {
	q := a / n
	if a%n < 0 {
		q--
	}
	return q
}

func magnitude[N integer](n N) N { return max(n, -n) }

// Sum writes sizes as a spec does: "3+2+2".
func Sum(sizes []int) string {
	return SumOf(sizes, func(n int) (int, bool) { return n, false })
}

// SumOf writes sizes of which some may be rests as a spec does: "3+rest 2".
func SumOf[T any](list []T, size func(T) (n int, rest bool)) string {
	terms := make([]string, len(list))
	for i, item := range list {
		n, rest := size(item)
		terms[i] = strconv.Itoa(n)
		if rest {
			terms[i] = "rest " + terms[i]
		}
	}
	return Plus(terms)
}

// Plus joins what a spec joins by +: the groups of a cycle, the tones of a chord.
func Plus(terms []string) string { return strings.Join(terms, "+") }
