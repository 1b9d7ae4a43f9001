package bar

import (
	"tieover/layout/sheet"
	"tieover/score/beat"
)

// addFermatas puts a fermata on the sign that each voice has at each of the moments: a
// note, a piece of one, or a rest that is printed.
func addFermatas(m *sheet.Measure, moments []beat.Time) {
	for _, at := range moments {
		for i := range m.Voices {
			for _, e := range m.Voices[i].Events {
				if at < e.At() || at >= e.At()+e.Span() {
					continue
				}
				switch e := e.(type) {
				case *sheet.Note:
					e.Fermata = true
				case *sheet.Rest:
					e.Fermata = !e.Hidden
				}
			}
		}
	}
}
