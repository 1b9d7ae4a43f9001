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
func (l *line) clefIn(b, i int) instrument.Clef { return l.clefOf(&l.rows[b], i) }

func (l *line) clefOf(r *row, i int) instrument.Clef {
	st := &l.staves[i]
	return l.e.sheet.Parts[st.part].ClefIn(r.bars[st.part].Measure, st.number)
}

// turn returns the clef that a staff changes to at the end of a bar: it is written
// before the barline, also at the end of a line.
func (l *line) turn(b, i int) (c instrument.Clef, turns bool) {
	next := l.next
	if b+1 < len(l.rows) {
		next = &l.rows[b+1]
	}
	if next == nil || !next.bars[l.staves[i].part].NewClef || l.staves[i].tab {
		return c, false
	}
	c = l.clefOf(next, i)
	return c, c != l.clefIn(b, i) || next.bars[l.staves[i].part].Left == sheet.RepeatStart
}

// endRoom is what stands to the left of the end of a bar: the lines, and clefs
// that change.
func (l *line) endRoom(b int) unit { return l.turnRoom(b) + barlineRoom(l.rows[b].bars[0].Barline) }

func (l *line) turnRoom(b int) unit {
	for i := range l.staves {
		if _, turns := l.turn(b, i); turns {
			return turnAir + clefRoom.percent(smallClef) + 20
		}
	}
	return 0
}

// turnX is where the clefs stand that change at the end of a bar.
func (l *line) turnX(b int) unit { return l.edges[b+1] - l.endRoom(b) + turnAir }

// lineOf is the line that a clef names, from the middle line.
func lineOf(c instrument.Clef) unit {
	if c.Sign == 'P' {
		return 0
	}
	return -unit(c.Line-3) * space
}

// drawClef draws a clef from its left edge.
func drawClef(p *path, k *ink, c instrument.Clef, x unit, percent int) {
	y := lineOf(c)
	switch c.Sign {
	case 'G':
		p.sign(clefG, x+unit(135).percent(percent), y, percent)
	case 'F':
		p.sign(clefF, x+unit(45).percent(percent), y, percent)
	case 'C':
		p.sign(clefC, x, y, percent)
	default:
		p.sign(clefPercussion, x+20, y, percent)
	}
	f := octaveFace
	f.size = f.size.percent(percent)
	switch x += unit(165).percent(percent); {
	case c.Octave < 0:
		k.text(x, y+unit(340).percent(percent), "8", f)
	case c.Octave > 0:
		k.text(x, y-unit(450).percent(percent), "8", f)
	}
}

// clefReach is how far a clef reaches from the middle line.
func clefReach(c instrument.Clef, percent int) (up, down unit) {
	y := lineOf(c)
	up, down = -200, 200
	if c.Sign == 'G' {
		up, down = -445, 270
	}
	if c.Octave < 0 {
		down = 360
	}
	if c.Octave > 0 {
		up = -580
	}
	if c.Sign == 'F' {
		up, down = up+100, down+100
	}
	return y + up.percent(percent), y + down.percent(percent)
}

// keyPlace moves the place of a sign of a key signature from the treble clef to
// another, in halves of a space above the middle line. In the tenor clef those that
// would leave the staff stand an octave lower (common practice).
func keyPlace(c instrument.Clef, treble int) int {
	switch {
	case c.Sign == 'F':
		return treble - 2
	case c.Sign == 'C' && c.Line == 3:
		return treble - 1
	case c.Sign == 'C' && treble+1 > 4:
		return treble + 1 - 7
	case c.Sign == 'C':
		return treble + 1
	}
	return treble
}

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
