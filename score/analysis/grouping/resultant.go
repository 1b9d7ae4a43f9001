package grouping

import (
	"slices"

	"tieover/score/beat"
)

// Resultant returns the durations between the attack points of several steady
// pulses that start together, over their least common period: the union of the
// attack points. Schillinger prints the period as the product of generators
// that share a factor; the series is then this one, repeated. The generators
// are positive, and at least one is given.
func Resultant(generators ...int) []int {
	period := lcm(generators)
	var points []int
	for _, g := range generators {
		for at := 0; at < period; at += g {
			points = append(points, at)
		}
	}
	return series(points, period)
}

// Complementary returns the resultant of the complementary factors: of the
// least common period of the generators divided by each.
func Complementary(generators ...int) []int {
	all := lcm(generators)
	factors := make([]int, len(generators))
	for i, g := range generators {
		factors[i] = all / g
	}
	return Resultant(factors...)
}

// Fractioning returns the resultant with fractioning (Schillinger 1946, Book
// I ch. 4) of a > b: over a·a units a steady pulse of a, and a-b+1 runs of a
// attacks b apart, each run starting a units after the one before. Generators
// that share a factor are reduced by it: 6 and 4 make the resultant of 3 and 2,
// each duration twice as long.
func Fractioning(a, b int) []int {
	common := beat.GCD(a, b)
	a, b = a/common, b/common
	var points []int
	for at := 0; at < a*a; at += a {
		points = append(points, at)
	}
	for run := range a - b + 1 {
		for i := range a {
			points = append(points, run*a+i*b)
		}
	}
	all := series(points, a*a)
	for i := range all {
		all[i] *= common
	}
	return all
}

func lcm(numbers []int) int {
	n := 1
	for _, m := range numbers {
		n = n / beat.GCD(n, m) * m
	}
	return n
}

// series returns the durations between the points, which hold 0, up to period.
func series(points []int, period int) []int {
	slices.Sort(points)
	points = slices.Compact(points)
	return Rhythm{Units: period, Onsets: points}.Gaps()
}
