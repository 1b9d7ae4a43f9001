package find

import (
	"math"

	"tieover/score/find/align"
)

func gamma(k int64) float64 { return align.Gamma(k) }

// choice is the length of one of n equally likely things.
func choice(n int) float64 { return math.Log2(float64(n)) }

// kind is what it costs to say which kind of description follows.
const kind = 3

// processKind is what it costs to say how a melody changes.
const processKind = 3

// keyBits is what one tone of a chord costs: one of 128 keys.
const keyBits = 7

// valuesBits is what a list of values costs: the different sizes once, how
// many values there are, then each as one of the sizes. Where there are blanks
// each value has a bit that says so.
func valuesBits(items []Item) float64 {
	sizes := map[int64]bool{}
	blanks := false
	cost := 0.0
	for _, item := range items {
		if !sizes[item.Size] {
			sizes[item.Size] = true
			cost += gamma(item.Size) // whole bits: the order of adding does not matter
		}
		blanks = blanks || item.Blank
	}
	n := len(items)
	cost += gamma(int64(len(sizes))) + gamma(int64(n)) + float64(n)*choice(len(sizes))
	if blanks {
		cost += float64(n)
	}
	return cost
}

// literalBits is what values cost without a pattern.
func literalBits(items []Item) float64 { return kind + valuesBits(items) }

// rhythmBits is what the rhythm of a description costs. n is how many values
// the list has.
func (d *Description) rhythmBits(n int) float64 {
	if d.Literal {
		return literalBits(d.Groups) + d.Strike.bits()
	}
	cost := kind + valuesBits(d.Groups) + gamma(int64(n))
	if d.CutEvery > 0 {
		cost += gamma(d.CutEvery)
	}
	if d.Lead > 0 {
		cost += gamma(d.Lead)
	}
	if d.Tail > 0 {
		cost += gamma(d.Tail)
	}
	for i := range d.Process {
		cost += align.ProcessBits(&d.Process[i])
	}
	if d.Reset > 0 {
		cost += gamma(d.Reset)
	}
	if d.Melody != nil {
		cost += d.Melody.bits()
	}
	cost += d.Strike.bits()
	return cost
}

// bits is what it costs to say that sounds are not held.
func (s Strike) bits() float64 {
	if s == Hold {
		return 0
	}
	return 2
}
