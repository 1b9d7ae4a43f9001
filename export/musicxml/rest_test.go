package musicxml

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/layout/sheet"
	"tieover/score/instrument"
)

// Rests of two voices stand five steps above and below the middle line: G5 and D4 in
// treble clef, an octave lower where the clef has an 8 below it.
func TestRestPlaces(t *testing.T) {
	for name, want := range map[string][2]string{"treble": {"G5", "D4"}, "treble 8": {"G4", "D3"}, "bass": {"B3", "F2"}, "tenor": {"F4", "C3"}} {
		m := measure(common4, voice(1, 1, sheet.StemUp, rest(half_), note(half_, at("C4"))), voice(1, 2, sheet.StemDown, rest(half_), note(half_, at("C4"))))
		m.Clefs = []instrument.Clef{instrument.ClefOf(name)}
		bars := parse(t, writtenDoc(t, &sheet.Sheet{Title: "T", Grid: testGrid, Bars: 1, Parts: []sheet.Part{part("Cello", "Vc.", "cello", sheet.Bar{Measure: m})}}, Options{})).part(0)
		var got [2]string
		for i, r := range bars[0].all("rest") {
			got[i] = r.text("display-step") + r.text("display-octave")
		}
		assert.Equal(t, want, got, name)
	}
}
