package musicxml

import "tieover/layout/sheet"

// graces writes the grace notes before a note: one with a slash through its
// stem, several under beams without. Those with pitches are slurred to the note.
func (e *encoder) graces(l *lines, m *sheet.Measure, v *sheet.Voice, n *sheet.Note) {
	for k, g := range n.Graces {
		for i := range g.Heads {
			e.grace(l, m, v, g, i, k == 0, len(n.Graces) == 1)
		}
	}
}

func (e *encoder) grace(l *lines, m *sheet.Measure, v *sheet.Voice, g *sheet.Note, index int, begins, alone bool) {
	head, first := &g.Heads[index], index == 0
	l.open("note")
	graceSign(l, alone)
	if !first {
		l.empty("chord")
	}
	e.headPlace(l, m, head)
	e.soundOf(l, m, head)
	l.number("voice", int64(v.Number))
	noteValue(l, g.Value, false)
	accidental(l, head.Accidental)
	stem := "up"
	if v.Stem == sheet.StemDown {
		stem = "down"
	}
	l.leaf("stem", stem)
	e.notehead(l, m, head)
	e.staff(l, v)
	if first {
		beams(l, g)
		if begins && head.Step != 0 {
			l.open("notations")
			graceSlur(l, "start")
			l.close("notations")
		}
	}
	l.close("note")
}

// graceSign makes a note a grace note, with a slash if it is the only one.
func graceSign(l *lines, alone bool) {
	if alone {
		l.empty("grace", "slash", "yes")
	} else {
		l.empty("grace")
	}
}

// graceSlur is an end of the slur from the first grace note to its note. Slurs of
// phrases have other numbers.
func graceSlur(l *lines, end string) {
	l.empty("slur", "type", end, "number", "2")
}
