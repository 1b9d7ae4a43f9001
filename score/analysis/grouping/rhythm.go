// Package grouping knows what can be said of one cyclic rhythm by itself: its
// necklace, whether it is Euclidean, how even, balanced and syncopated it is,
// and what several steady pulses make together. Everything is counted in whole
// units; only the indices that are defined over the complex plane are floats.
package grouping

import (
	"fmt"
	"slices"
	"strings"

	"tieover/score/beat"
)

// Rhythm is a set of onsets on a circle of units. Onsets ascend and lie in
// [0, Units). The rhythm starts at unit 0, which need not hold an onset.
type Rhythm struct {
	Units  int
	Onsets []int
}

// Of returns the rhythm whose onsets are the starts of the groups; the sizes
// are positive.
func Of(groups ...int) Rhythm {
	r := Rhythm{Onsets: make([]int, len(groups))}
	for i, g := range groups {
		r.Onsets[i] = r.Units
		r.Units += g
	}
	return r
}

// FromBox reads box notation: x an onset, . none.
func FromBox(box string) (Rhythm, error) {
	r := Rhythm{Units: len(box)}
	for i, c := range []byte(box) {
		switch c {
		case 'x':
			r.Onsets = append(r.Onsets, i)
		case '.':
		default:
			return Rhythm{}, fmt.Errorf("box %q: %q is not x or . as it must be", box, c)
		}
	}
	return r, nil
}

// Box writes the rhythm in box notation.
func (r Rhythm) Box() string {
	cells := []byte(strings.Repeat(".", r.Units))
	for _, at := range r.Onsets {
		cells[at] = 'x'
	}
	return string(cells)
}

// Gaps returns the distance from each onset to the next, the last one round
// the circle to the first: the groups, read from the first onset.
func (r Rhythm) Gaps() []int {
	gaps := make([]int, len(r.Onsets))
	for i, at := range r.Onsets {
		if i+1 < len(r.Onsets) {
			gaps[i] = r.Onsets[i+1] - at
		} else {
			gaps[i] = r.Units - at + r.Onsets[0]
		}
	}
	return gaps
}

// Rotate returns the rhythm started k units later: what was at k comes to 0.
func (r Rhythm) Rotate(k int) Rhythm {
	k = beat.Mod(k, r.Units)
	first, _ := slices.BinarySearch(r.Onsets, k)
	out := Rhythm{Units: r.Units, Onsets: Turn(r.Onsets, first)}
	for i := range out.Onsets {
		out.Onsets[i] = beat.Mod(out.Onsets[i]-k, r.Units)
	}
	return out
}

func sum(sizes []int) int {
	n := 0
	for _, s := range sizes {
		n += s
	}
	return n
}
