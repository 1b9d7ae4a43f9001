package grouping

import (
	"fmt"
	"math/big"
)

func product(divisions []int) int {
	n := 1
	for _, d := range divisions {
		n *= d
	}
	return n
}

// weight returns the metrical weight of a unit of a bar of n units that is divided
// in turn as given, from the largest part down: 2, 3 for 6/8 in eighths, 3, 2 for
// 3/4. The downbeat weighs 0, each deeper level one less (Longuet-Higgins and Lee
// 1984, from memory).
func weight(at, n int, divisions []int) int {
	for level, d := range divisions {
		if at%n == 0 {
			return -level
		}
		n /= d
	}
	return -len(divisions)
}

// LHL returns the syncopation of the rhythm by Longuet-Higgins and Lee: the
// bar is divided until each part is one note or one silence; a silence (or a
// note held into the part) that weighs at least as much as the nearest note
// before it adds the difference. Nothing is carried round the cycle, 0 means
// no syncopation. The divisions multiply to the rhythm's units.
func (r Rhythm) LHL(divisions ...int) int {
	if product(divisions) != r.Units {
		panic(fmt.Sprintf("grouping: divisions %v do not make %d units", divisions, r.Units))
	}
	p := parse{units: r.Units, divisions: divisions, note: -1}
	p.part(0, r.Units, 0, r.Onsets)
	return p.total
}

type parse struct {
	units     int
	divisions []int
	note      int // where the nearest note before is; -1 before the first
	total     int
}

// part reads the units from start on; the onsets are those inside.
func (p *parse) part(start, length, level int, onsets []int) {
	switch {
	case len(onsets) == 1 && onsets[0] == start:
		p.note = start
		return
	case len(onsets) == 0:
		p.silence(start)
		return
	}
	smaller := length / p.divisions[level]
	for end := start + smaller; end <= start+length; end += smaller {
		k := 0
		for k < len(onsets) && onsets[k] < end {
			k++
		}
		p.part(end-smaller, smaller, level+1, onsets[:k])
		onsets = onsets[k:]
	}
}

func (p *parse) silence(at int) {
	if p.note < 0 {
		return
	}
	over := weight(at, p.units, p.divisions) - weight(p.note, p.units, p.divisions)
	p.total += max(0, over)
}

// WNBD is the weighted note-to-beat distance of Gómez, Melvin, Rappaport and
// Toussaint (2005) for a beat of the given number of units, of which the cycle
// has a whole number. A note on a beat adds nothing; else, with T beats to the
// nearest beat, it adds 1/T if it ends by the next beat, 2/T if it ends before
// the second next beat, and 1/T again if it ends there or later. The result is
// the mean over all notes; each lasts to the next onset, round the cycle.
func (r Rhythm) WNBD(beat int) *big.Rat {
	total := new(big.Rat)
	gaps := r.Gaps()
	for i, at := range r.Onsets {
		past := at % beat
		if past == 0 {
			continue
		}
		times := int64(1)
		if end := past + gaps[i]; end > beat && end < 2*beat {
			times = 2
		}
		total.Add(total, big.NewRat(times*int64(beat), int64(min(past, beat-past))))
	}
	return total.Mul(total, big.NewRat(1, int64(max(1, len(r.Onsets)))))
}

// Keith counts the syncopations of Keith in Toussaint's form: a note is one
// when it does not start on a multiple of its own length, rounded down to a
// power of two.
func (r Rhythm) Keith() int {
	n := 0
	gaps := r.Gaps()
	for i, at := range r.Onsets {
		d := 1
		for 2*d <= gaps[i] {
			d *= 2
		}
		if at%d != 0 {
			n++
		}
	}
	return n
}
