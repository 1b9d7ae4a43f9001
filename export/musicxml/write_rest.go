package musicxml

import (
	"github.com/beevik/etree"

	"tieover/layout/sheet"
)

func (e *encoder) rest(m *sheet.Measure, v *sheet.Voice, r *sheet.Rest) *etree.Element {
	rest := elem("rest")
	if r.Whole {
		rest.CreateAttr("measure", "yes")
	}
	if step, octave, apart := e.restPlace(m, v); apart && !r.Hidden {
		rest.AddChild(leaf("display-step", step))
		rest.AddChild(number("display-octave", octave))
	}
	note := elem("note", rest, ticks("duration", r.Length), number("voice", v.Number))
	if r.Hidden {
		note.CreateAttr("print-object", "no")
	}
	if !r.Whole {
		addValue(note, r.Value, v.Small)
		if r.Tuplet != nil {
			note.AddChild(timeModification(r.Tuplet, r.Value))
		}
	}
	e.addStaff(note, v)
	notations := elem("notations")
	addTuplet(notations, r.Tuplet, r.TupletStart, r.TupletStop)
	addFermata(notations, v, r.Fermata)
	if len(notations.Child) > 0 {
		note.AddChild(notations)
	}
	return note
}

// restPlace says where a rest stands when two voices share its staff: the
// voice with stems up has its rests in the upper half, the other in the lower.
func (e *encoder) restPlace(m *sheet.Measure, v *sheet.Voice) (step string, octave int, apart bool) {
	if v.Stem == sheet.StemFree || !sharesStaff(m, v) {
		return "", 0, false
	}
	var middle int
	switch clef := e.part.ClefIn(m, v.Staff); {
	case e.part.Staves[v.Staff-1].Lines == 1:
		middle = letter('E', 4)
	case clef.Sign == 'F':
		middle = letter('D', 3) + 2*(4-clef.Line)
	case clef.Sign == 'C':
		middle = letter('C', 4) + 2*(3-clef.Line)
	default:
		middle = letter('B', 4)
	}
	if v.Stem == sheet.StemUp {
		middle += 5
	} else {
		middle -= 5
	}
	return string("CDEFGAB"[middle%7]), middle / 7, true
}

// letter returns a note's place on the staff, counted in letters from C0.
func letter(step byte, octave int) int { return 7*octave + (int(step)-'C'+7)%7 }

func sharesStaff(m *sheet.Measure, v *sheet.Voice) bool {
	for i := range m.Voices {
		if other := &m.Voices[i]; other != v && other.Staff == v.Staff {
			return true
		}
	}
	return false
}
