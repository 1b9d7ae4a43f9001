package engraving

// line is one system while it is made. The passes of place fill it in; each
// builds on those before.
type line struct {
	*spaced
	canvas
	e      *engraver
	spots  []spot
	groups []beamGroup
}

// spot is a note or rest where it is drawn.
type spot struct {
	*placed
	tip   unit // of the stem
	restY unit
	group int // of beams, -1 for none
}

func (e *engraver) newLine(rows []row, next *row, width unit) *line {
	l := &line{spaced: e.setter.line(rows, next, width), e: e}
	l.canvas = newCanvas(e.staves, width, e.watch)
	return l
}

// place finds where everything stands, pass after pass: each adds to the
// skylines what the next must keep clear of.
func (l *line) place() {
	l.setSpots()
	l.spots = make([]spot, len(l.spaced.spots))
	for i := range l.spots {
		l.spots[i] = spot{placed: &l.spaced.spots[i], group: -1}
	}
	l.skylines()
	l.beams()
	l.stems()
	l.strokes()
	l.graceNotes()
	l.tablature()
	l.rests()
	l.articulations()
	l.tuplets()
	l.ties()
	l.slurs()
	l.fermatas()
	drawMarks(l.spaced, &l.canvas, &l.e.marks)
	l.numberBars()
	l.sayTimes()
	l.distances()
}
