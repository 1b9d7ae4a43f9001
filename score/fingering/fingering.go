// Package fingering chooses where a player of a fretted instrument stops the strings.
//
// Choose fingers a row of attacks. The hand stands at a fret h, its first finger's, and
// stops strings at h to h+3; open strings it has anywhere. Lower notes are on lower
// strings. Of all ways that is the one with the least sum of h + 3·|Δh| between
// neighbours, from the last to the first too where the row goes round; then with the
// fewest grace notes on strings of their own, for one is slurred to its note; then the
// least sum of frets; then the first in the order of strings, string 1 first.
//
// It is a shortest path over positions: at one position the best stops of an attack do
// not depend on its neighbours. Choose takes 17³ steps an attack of a row that goes
// round, 17² of one that does not.
package fingering

import (
	"cmp"
	"fmt"
	"slices"
)

// Frets is how many frets a string has.
const Frets = 20

// Reach is how many frets the hand covers.
const Reach = 4

// positions is how many frets the hand may be at: from a higher one it reaches no more.
const positions = Frets - Reach + 1

// Stop is where a tone is played: on a string, from 1 the highest, at a fret, 0 for
// the open string.
type Stop struct{ String, Fret int8 }

// Attack is the tones of an attack as MIDI keys, in any order, and those of the grace
// notes before it.
type Attack struct {
	Graces [][]int
	Struck []int
}

// Hand is where the tones of an attack are stopped, in their order.
type Hand struct {
	Graces [][]Stop
	Struck []Stop
}

// Choose fingers a row of attacks on strings tuned to MIDI keys, the lowest first;
// round says that the first follows the last. bad are the indexes of the attacks
// that no hand can hold; if there are any there are no hands.
func Choose(tuning []int, row []Attack, round bool) (hands []Hand, bad []int) {
	if len(row) == 0 {
		return nil, nil
	}
	r := reader{tuning: tuning}
	known := map[string]*ways{}
	for i, a := range row {
		name := fmt.Sprint(a)
		if _, met := known[name]; !met {
			known[name] = r.waysOf(a)
		}
		if r.row = append(r.row, known[name]); known[name] == nil {
			bad = append(bad, i)
		}
	}
	switch {
	case bad != nil:
		return nil, bad
	case !round:
		return r.from(anywhere).hands, nil
	}
	best := path{}
	for h := range positions {
		if p := r.from(h); p.better(&best) {
			best = p
		}
	}
	return best.hands, nil
}

// reader finds the best way to hold each attack at each position.
type reader struct {
	tuning []int
	row    []*ways // of each attack; equal ones share theirs
}

// ways are how an attack is best held, by position, 0 for the first.
type ways [positions]way

// way is how an attack is held at one position.
type way struct {
	hand         Hand
	apart, frets int // grace notes on strings of their own; the sum of frets
}

func (w *way) possible() bool { return w.hand.Struck != nil }

// waysOf finds the ways of an attack, nil if there is none.
func (r *reader) waysOf(a Attack) *ways {
	var all ways
	any := false
	for h := range positions {
		w := &all[h]
		r.eachChord(a.Struck, h+1, func(struck []Stop) {
			try := way{hand: Hand{Struck: struck}, frets: fretsOf(struck)}
			for _, keys := range a.Graces {
				led := r.grace(keys, h+1, struck)
				if led == nil {
					return
				}
				try.hand.Graces = append(try.hand.Graces, led)
				try.apart += apartOf(led, struck)
				try.frets += fretsOf(led)
			}
			if !w.possible() || try.compare(w) < 0 {
				*w = try
			}
		})
		any = any || w.possible()
	}
	if !any {
		return nil
	}
	return &all
}

// compare returns less than 0 if w is the better of two ways at one position.
func (w *way) compare(o *way) int {
	return cmp.Or(w.apart-o.apart, w.frets-o.frets, w.hand.compare(&o.hand))
}

// grace returns the best stops of a grace note before what is struck.
func (r *reader) grace(keys []int, h int, struck []Stop) (best []Stop) {
	r.eachChord(keys, h, func(stops []Stop) {
		if best == nil || cmp.Or(apartOf(stops, struck)-apartOf(best, struck), fretsOf(stops)-fretsOf(best), compareStops(stops, best)) < 0 {
			best = stops
		}
	})
	return best
}

// eachChord calls see with every way to hold keys at a position.
func (r *reader) eachChord(keys []int, h int, see func([]Stop)) {
	upwards := make([]int, len(keys))
	for i := range keys {
		upwards[i] = i
	}
	slices.SortStableFunc(upwards, func(a, b int) int { return keys[a] - keys[b] })
	held := make([]Stop, len(keys))
	var hold func(n, top int) // what is left from the nth lowest key on, on strings up to top
	hold = func(n, top int) {
		if n == len(keys) {
			see(slices.Clone(held))
			return
		}
		k := upwards[n]
		for s := top; s >= len(keys)-n; s-- {
			fret := keys[k] - r.tuning[len(r.tuning)-s]
			if fret == 0 || fret >= h && fret < h+Reach && fret <= Frets {
				held[k] = Stop{int8(s), int8(fret)}
				hold(n+1, s-1)
			}
		}
	}
	hold(0, len(r.tuning))
}

func fretsOf(stops []Stop) (sum int) {
	for _, s := range stops {
		sum += int(s.Fret)
	}
	return sum
}

// apartOf counts the stops on strings that the chord does not use.
func apartOf(stops, chord []Stop) (n int) {
	for _, s := range stops {
		if !slices.ContainsFunc(chord, func(c Stop) bool { return c.String == s.String }) {
			n++
		}
	}
	return n
}

// compare orders hands by their strings as they sound.
func (h *Hand) compare(o *Hand) int {
	return cmp.Or(slices.CompareFunc(h.Graces, o.Graces, compareStops), compareStops(h.Struck, o.Struck))
}

func compareStops(a, b []Stop) int {
	return slices.CompareFunc(a, b, func(s, t Stop) int { return int(s.String - t.String) })
}
