package find

import (
	"math"
	"slices"

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
	sizes := make([]int, len(items))
	for i, item := range items {
		sizes[i] = int(item.Size)
	}
	cost := align.GroupsBits(sizes)
	if slices.ContainsFunc(items, func(i Item) bool { return i.Blank }) {
		cost += float64(len(items))
	}
	return cost
}

// rhythmBits is what the rhythm of a list of n values costs that is one stretch.
func (s *Stretch) rhythmBits(n int) float64 {
	cost := kind + valuesBits(s.Groups) + gamma(int64(n)) + s.changeBits() + s.Strike.bits()
	for _, pulses := range []int64{s.CutEvery, s.At, s.Tail} {
		if pulses > 0 {
			cost += gamma(pulses)
		}
	}
	return cost
}

// changeBits is what it costs to say how the cycles of a loop change.
func (s *Stretch) changeBits() (cost float64) {
	for i := range s.Process {
		cost += align.ProcessBits(&s.Process[i])
	}
	if s.Reset > 0 {
		cost += gamma(s.Reset)
	}
	if s.Melody != nil {
		cost += s.Melody.bits()
	}
	return cost
}

// bits is what it costs to say that sounds are not held.
func (s Strike) bits() float64 {
	if s == Hold {
		return 0
	}
	return 2
}
