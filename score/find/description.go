package find

import (
	"slices"

	"tieover/score/process"
)

// Description is one way to say a list. Playing it gives the list back
// exactly.
type Description struct {
	Literal bool // the bare list: no pattern
	// Stretches follow one another. Where one loop or process is all there is, it is the
	// only one; the bare list is one whose groups are all its values.
	Stretches []Stretch
	Series    *Series // nil for a mere rhythm
	// Nearest is the loop that comes nearest to a list without a pattern; nil if none
	// does, and nil of all others.
	Nearest *Description

	additive bool // only the pitches show that the cycles differ

	RhythmBits, PitchBits float64
	Saved                 float64 // bits less than the bare list
}

// Bits is the length of the whole description.
func (d *Description) Bits() float64 { return d.RhythmBits + d.PitchBits }

// Strong reports whether the description saves more than 8 bits. Below that a
// list made by chance may well do as much.
func (d *Description) Strong() bool { return !d.Literal && d.Saved > strongBits }

const strongBits = 8

// Loop returns the first stretch that has a loop; the first of all if none has.
func (d *Description) Loop() *Stretch {
	return &d.Stretches[max(0, slices.IndexFunc(d.Stretches, func(s Stretch) bool { return s.Groups != nil }))]
}

// IsExact reports whether a single stretch, in which no exceptions were looked for, gives
// the list.
func (d *Description) IsExact() bool { return len(d.Stretches) == 1 && d.Stretches[0].Turns == nil }

// IsPlainLoop reports whether one loop that never changes gives the list.
func (d *Description) IsPlainLoop() bool { return !d.Literal && d.IsExact() && d.Loop().isPlain() }

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
	Last    bool  // a cycle that has fewer attacks has the last of them

	// Order is how the order changes where it starts over with each cycle: a
	// rotation and a retrograde of the pitches, counted in cycles.
	Order []process.Rule

	Others []OtherPitches // the exceptions of one that starts over with each cycle, in order
}

func total(items []Item) int64 {
	sum := int64(0)
	for _, item := range items {
		sum += item.Size
	}
	return sum
}
