package engraving

import (
	"tieover/export/engraving/canvas"
	"tieover/export/engraving/content"
	"tieover/export/engraving/marks"
	"tieover/export/engraving/pen"
	"tieover/export/engraving/spacing"
)

// line is one system while it is made. The passes of place fill it in; each
// builds on those before.
type line struct {
	*spacing.Line
	canvas.Canvas
	e      *engraver
	spots  []spot
	groups []beamGroup
}

// spot is a note or rest where it is drawn.
type spot struct {
	*spacing.Spot
	tip   pen.Unit // of the stem
	restY pen.Unit
	group int // of beams, -1 for none
}

func (e *engraver) newLine(rows []content.Row, next *content.Row, width pen.Unit) *line {
	l := &line{Line: e.Setter.Line(rows, next, width), e: e}
	l.Canvas = canvas.New(e.Staves, width, e.watch)
	return l
}

// place finds where everything stands, pass after pass: each adds to the
// skylines what the next must keep clear of.
func (l *line) place() {
	l.PlaceSpots()
	l.spots = make([]spot, len(l.Line.Spots))
	for i := range l.spots {
		l.spots[i] = spot{Spot: &l.Line.Spots[i], group: -1}
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
	marks.Draw(l.Line, &l.Canvas, &l.e.marks)
	l.numberBars()
	l.sayTimes()
	l.distances()
}
