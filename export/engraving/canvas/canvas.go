package canvas

import (
	"tieover/export/engraving/content"
	"tieover/export/engraving/pen"
)

// Canvas is what is drawn on the staves of a line.
type Canvas struct {
	Staves []Staff
	limit  pen.Unit // texts end before it
	Labels []Box    // texts that a barline must not cross
	Boxes  []Box    // what is drawn where, if it is watched
	watch  bool
}

// Staff is a staff of the line with what is drawn on it. Places on it are
// measured from its middle line.
type Staff struct {
	*content.Staff
	Y       pen.Unit // of the middle line
	Up      []pen.Unit
	Down    []pen.Unit
	Fills   pen.Path
	Strokes pen.Path
	Notes   pen.Ink
	Texts   pen.Ink
	Gaps    []Gap // in the lines of tablature
}

// Gap is where a line of tablature is broken by a number.
type Gap struct {
	Line   int // from 0, the highest string
	X0, X1 pen.Unit
}

// Box is the place of something drawn, from the middle line of its staff.
type Box struct {
	What           string
	Staff          int
	X0, Y0, X1, Y1 pen.Unit
}

// New returns the empty staves of a line; no text runs beyond limit. With watch the
// places of all signs are kept in Boxes.
func New(staves []content.Staff, limit pen.Unit, watch bool) Canvas {
	c := Canvas{Staves: make([]Staff, len(staves)), limit: limit, watch: watch}
	for i := range staves {
		c.Staves[i].Staff = &staves[i]
	}
	return c
}
