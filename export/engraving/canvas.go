package engraving

// canvas is what is drawn on the staves of a line.
type canvas struct {
	staves []lineStaff
	limit  unit  // texts end before it
	labels []box // texts that a barline must not cross
	boxes  []box // what is drawn where, if it is watched
	watch  bool
}

// lineStaff is a staff of the line with what is drawn on it. Places on it are
// measured from its middle line.
type lineStaff struct {
	*staff
	y       unit // of the middle line
	up      []unit
	down    []unit
	fills   path
	strokes path
	notes   ink
	texts   ink
	gaps    []gap // in the lines of tablature
}

// gap is where a line of tablature is broken by a number.
type gap struct {
	line   int // from 0, the highest string
	x0, x1 unit
}

// box is the place of something drawn, from the middle line of its staff.
type box struct {
	what           string
	staff          int
	x0, y0, x1, y1 unit
}

func newCanvas(staves []staff, limit unit, watch bool) canvas {
	c := canvas{staves: make([]lineStaff, len(staves)), limit: limit, watch: watch}
	for i := range staves {
		c.staves[i].staff = &staves[i]
	}
	return c
}
