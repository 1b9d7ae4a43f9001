package musicxml

import "tieover/layout/sheet"

func (e *encoder) rest(l *lines, m *sheet.Measure, v *sheet.Voice, r *sheet.Rest) {
	if r.Hidden {
		l.open("note", "print-object", "no")
	} else {
		l.open("note")
	}
	e.restSign(l, m, v, r)
	l.number("duration", int64(r.Length))
	l.number("voice", int64(v.Number))
	if !r.Whole {
		noteValue(l, r.Value, v.Small)
		timeModification(l, r.Tuplet, r.Value)
	}
	e.staff(l, v)
	notations := l.open("notations")
	tupletEnds(l, r.Tuplet, r.TupletStart, r.TupletStop)
	fermata(l, v, r.Fermata)
	l.closeFilled("notations", notations)
	l.close("note")
}

// restSign writes the rest itself, and where it stands if others share its staff.
func (e *encoder) restSign(l *lines, m *sheet.Measure, v *sheet.Voice, r *sheet.Rest) {
	var attributes []string
	if r.Whole {
		attributes = wholeBar
	}
	step, octave, apart := e.restPlace(m, v)
	if !apart || r.Hidden {
		l.empty("rest", attributes...)
		return
	}
	l.open("rest", attributes...)
	l.leaf("display-step", nameOf(step))
	l.number("display-octave", int64(octave))
	l.close("rest")
}

var wholeBar = []string{"measure", "yes"}

// restPlace says where a rest stands when two voices share its staff: the
// voice with stems up has its rests in the upper half, the other in the lower.
func (e *encoder) restPlace(m *sheet.Measure, v *sheet.Voice) (step byte, octave int, apart bool) {
	if v.Stem == sheet.StemFree || !sharesStaff(m, v) {
		return 0, 0, false
	}
	place := sheet.Steps(e.part.MiddleIn(m, v.Staff))
	if v.Stem == sheet.StemUp {
		place += 5
	} else {
		place -= 5
	}
	step, octave = sheet.StepAt(place)
	return step, octave, true
}

func sharesStaff(m *sheet.Measure, v *sheet.Voice) bool {
	for i := range m.Voices {
		if other := &m.Voices[i]; other != v && other.Staff == v.Staff {
			return true
		}
	}
	return false
}
