package musicxml

import (
	"tieover/layout/sheet"
	"tieover/score/instrument"
)

// headPlace writes the pitch of a head, or where an unpitched one stands.
func (e *encoder) headPlace(l *lines, m *sheet.Measure, head *sheet.Head) {
	if head.Step == 0 {
		drum := e.part.DrumOf(m, head)
		unpitched(l, drum.Step, drum.Octave)
		return
	}
	l.open("pitch")
	l.leaf("step", nameOf(head.Step))
	if head.Alter != 0 {
		l.number("alter", int64(head.Alter))
	}
	l.number("octave", int64(head.Octave))
	l.close("pitch")
}

func unpitched(l *lines, step byte, octave int) {
	l.open("unpitched")
	l.leaf("display-step", nameOf(step))
	l.number("display-octave", int64(octave))
	l.close("unpitched")
}

// nameOf is the name of a letter.
func nameOf(step byte) string { return "ABCDEFG"[step-'A':][:1] }

// soundOf says which sound of the part's a head has, where it has several.
func (e *encoder) soundOf(l *lines, m *sheet.Measure, head *sheet.Head) {
	if head.Step == 0 || e.part.Doubles() {
		l.empty("instrument", "id", e.soundID(e.part.InstrumentIn(m), max(1, head.Drum)))
	}
}

// notehead writes the shape of a head but for the ordinary one.
func (e *encoder) notehead(l *lines, m *sheet.Measure, head *sheet.Head) {
	shape := instrument.Normal
	if head.Step == 0 {
		shape = e.part.DrumOf(m, head).Head
	}
	switch {
	case head.Ghost:
		l.leaf("notehead", headNames[shape], "parentheses", "yes")
	case shape != instrument.Normal:
		l.leaf("notehead", headNames[shape])
	}
}

var headNames = [...]string{
	instrument.Normal:      "normal",
	instrument.Cross:       "x",
	instrument.Diamond:     "diamond",
	instrument.Triangle:    "triangle",
	instrument.CircleCross: "circle-x",
}

func accidental(l *lines, a sheet.Accidental) {
	switch sign := a &^ sheet.Courtesy; {
	case sign == sheet.NoSign:
	case a&sheet.Courtesy != 0:
		l.leaf("accidental", accidentalNames[sign], "cautionary", "yes", "parentheses", "yes")
	default:
		l.leaf("accidental", accidentalNames[sign])
	}
}

var accidentalNames = [...]string{
	sheet.DoubleFlat:  "flat-flat",
	sheet.Flat:        "flat",
	sheet.Natural:     "natural",
	sheet.Sharp:       "sharp",
	sheet.DoubleSharp: "double-sharp",
}
