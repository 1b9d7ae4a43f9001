package sheet

import (
	"strings"

	"tieover/score/beat"
)

// Shortest is the power of the finest value written: a 128th note.
const Shortest = 7

// Value is a written note value.
type Value struct {
	Power int // 0 whole, 1 half, 2 quarter … 7 128th
	Dots  int
}

// Length returns how long the value is in whole notes, outside tuplets.
func (v Value) Length() beat.Span {
	return beat.Of(int64(2)<<v.Dots-1, int64(1)<<(v.Power+v.Dots))
}

// Flags returns how many flags or beams the value has.
func (v Value) Flags() int { return max(0, v.Power-2) }

// String writes the value: "q", "e.", "h..", and from 32nds on "32", "64.", "128".
func (v Value) String() string {
	names := [...]string{"w", "h", "q", "e", "s", "32", "64", "128"}
	return names[v.Power] + strings.Repeat(".", v.Dots)
}
