package engraving

import (
	"tieover/layout/sheet"
	"tieover/score/instrument"
)

// smallClef is the size of a clef that changes, in percent.
const smallClef = 72

// turnAir is what such a clef keeps from the music before it.
const turnAir unit = 45

// clefIn is the clef of a staff of the line in one of its bars.
func (l *spaced) clefIn(b, i int) instrument.Clef { return l.clefOf(&l.rows[b], i) }

func (l *spaced) clefOf(r *row, i int) instrument.Clef {
	st := &l.s.staves[i]
	return l.s.sheet.Parts[st.part].ClefIn(r.bars[st.part].Measure, st.number)
}

// turn returns the clef that a staff changes to at the end of a bar: it is written
// before the barline, also at the end of a line.
func (l *spaced) turn(b, i int) (c instrument.Clef, turns bool) {
	next := l.next
	if b+1 < len(l.rows) {
		next = &l.rows[b+1]
	}
	if next == nil || !next.bars[l.s.staves[i].part].NewClef || l.s.staves[i].tab {
		return c, false
	}
	c = l.clefOf(next, i)
	return c, c != l.clefIn(b, i) || next.bars[l.s.staves[i].part].Left == sheet.RepeatStart
}

// endRoom is what stands to the left of the end of a bar: the lines, and clefs
// that change.
func (l *spaced) endRoom(b int) unit { return l.turnRoom(b) + barlineRoom(l.rows[b].bars[0].Barline) }

func (l *spaced) turnRoom(b int) unit {
	for i := range l.s.staves {
		if _, turns := l.turn(b, i); turns {
			return turnAir + clefRoom.percent(smallClef) + 20
		}
	}
	return 0
}

// turnX is where the clefs stand that change at the end of a bar.
func (l *spaced) turnX(b int) unit { return l.edges[b+1] - l.endRoom(b) + turnAir }

// barlineRoom is what a barline takes to its left.
func barlineRoom(b sheet.Barline) unit {
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
