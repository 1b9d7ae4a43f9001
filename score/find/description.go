package find

import (
	"slices"

	"tieover/score/process"
)

// Description is one way to say a list. Playing it gives the list back
// exactly.
type Description struct {
	Literal bool   // the bare list: no pattern
	Groups  []Item // of the first cycle; of the whole list when Literal
	Strike  Strike

	Lead     int64          // pulses of silence before the first cycle
	CutEvery int64          // pulses after which the cycle starts over; 0: never
	Process  []process.Rule // applied in order after each cycle, at most two
	Reset    int64          // cycles after which the processes start over; 0: never
	Tail     int64          // what is left of the last group, in pulses; 0 when it is whole

	Series *Series // nil for a mere rhythm

	// Stretches are the parts of a list that is not one loop all through: loops with
	// exceptions, one after the other. Groups, Cycles and Rest then repeat those of the
	// first that has a loop. nil: the fields above say all.
	Stretches []Stretch
	// Nearest is the loop that comes nearest to a list without a pattern; nil if none
	// does, and nil of all others.
	Nearest *Description

	Cycles int   // that begin, the first and the last included
	Rest   int64 // pulses of the last cycle; 0 when it is complete

	attacks int // of the line; only set where there are stretches

	// Melody is how the cycles of equal groups get longer or shorter where only their
	// pitches show it and no process does the same; else nil.
	Melody   *Melody
	additive bool // only the pitches show that the cycles differ

	Spent bool // the growth came to its end before the list did

	RhythmBits, PitchBits float64
	Saved                 float64 // bits less than the bare list
}

// Bits is the length of the whole description.
func (d *Description) Bits() float64 { return d.RhythmBits + d.PitchBits }

// Strong reports whether the description saves more than 8 bits. Below that a
// list made by chance may well do as much.
func (d *Description) Strong() bool { return !d.Literal && d.Saved > strongBits }

const strongBits = 8

// Has reports whether one of the processes is of the kind.
func (d *Description) Has(kind process.Kind) bool {
	return slices.ContainsFunc(d.Process, func(p process.Rule) bool { return p.Kind == kind })
}

// Length returns the pulses of the first cycle.
func (d *Description) Length() int64 { return total(d.Groups) }

// Strike is how the attacks of a group are made.
type Strike int

const (
	Hold  Strike = iota // one attack that lasts the group
	Short               // one attack of one pulse
	All                 // every pulse, the first accented
)

// delay returns a rule that shows for the first time after so many cycles that are
// alike.
func delay(r process.Rule, alike int) process.Rule {
	if r.After = alike; r.Kind == process.Retrograde {
		r.After++
	}
	return r
}

// Series is the pitches in the order in which they are dealt.
type Series struct {
	Chords  []int // indexes into List.Chords
	Own     bool  // it runs on by its own length; else it starts over with each cycle
	Literal bool  // it does not repeat
	Rounds  int   // times that it begins
	Last    bool  // a cycle that has fewer attacks has the last of them

	// Order is how the order changes where it starts over with each cycle: a
	// rotation and a retrograde of the pitches, counted in cycles.
	Order []process.Rule
}

func total(items []Item) int64 {
	sum := int64(0)
	for _, item := range items {
		sum += item.Size
	}
	return sum
}
