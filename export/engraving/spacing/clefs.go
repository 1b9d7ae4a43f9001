package spacing

import (
	"tieover/export/engraving/content"
	"tieover/export/engraving/pen"
	"tieover/layout/sheet"
	"tieover/score/instrument"
)

// SmallClef is the size of a clef that changes, in percent.
const SmallClef = 72

// turnAir is what such a clef keeps from the music before it.
const turnAir pen.Unit = 45

// ClefIn is the clef of a staff of the line in one of its bars.
func (l *Line) ClefIn(b, i int) instrument.Clef { return l.ClefOf(&l.Rows[b], i) }

// ClefOf is the clef of a staff in a row.
func (l *Line) ClefOf(r *content.Row, i int) instrument.Clef {
	st := &l.s.Staves[i]
	return l.s.Sheet.Parts[st.Part].ClefIn(r.Bars[st.Part].Measure, st.Number)
}

// Turn returns the clef that a staff changes to at the end of a bar: it is written
// before the barline, also at the end of a line.
func (l *Line) Turn(b, i int) (c instrument.Clef, turns bool) {
	next := l.Next
	if b+1 < len(l.Rows) {
		next = &l.Rows[b+1]
	}
	if next == nil || !next.Bars[l.s.Staves[i].Part].NewClef || l.s.Staves[i].Tab {
		return c, false
	}
	c = l.ClefOf(next, i)
	return c, c != l.ClefIn(b, i) || next.Bars[l.s.Staves[i].Part].Left == sheet.RepeatStart
}

// EndRoom is what stands to the left of the end of a bar: the lines, and clefs
// that change.
func (l *Line) EndRoom(b int) pen.Unit { return l.TurnRoom(b) + barlineRoom(l.Rows[b].Bars[0].Barline) }

// TurnRoom is the room of the clefs that change at the end of a bar, 0 for none.
func (l *Line) TurnRoom(b int) pen.Unit {
	for i := range l.s.Staves {
		if _, turns := l.Turn(b, i); turns {
			return turnAir + ClefRoom.Percent(SmallClef) + 20
		}
	}
	return 0
}

// TurnX is where the clefs stand that change at the end of a bar.
func (l *Line) TurnX(b int) pen.Unit { return l.Edges[b+1] - l.EndRoom(b) + turnAir }

// barlineRoom is what a barline takes to its left.
func barlineRoom(b sheet.Barline) pen.Unit {
	switch b {
	case sheet.Double:
		return 60
	case sheet.Final:
		return 90
	case sheet.RepeatEnd:
		return 170
	}
	return 0
}
