package musicxml

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/layout/sheet"
	"tieover/score"
)

// Three strokes stand on each piece of a roll, the sign of a trill on the first
// (MusicXML 4.0: ornaments holds tremolo, of a type and a number of strokes, and
// trill-mark).
func TestRolls(t *testing.T) {
	touched := func(touch score.Touch, n *sheet.Note) *sheet.Note {
		n.Touch = touch
		return n
	}
	m := measure(common4, plainVoice(
		touched(score.Roll|score.Accented, tiedOut(note(quarter_, at("A4")))),
		touched(score.Roll, tiedIn(note(quarter_, at("A4")))),
		touched(score.Tremolo, note(quarter_, at("A4"), at("C5"))),
		touched(score.Trill, note(quarter_, at("A4")))))
	s := &sheet.Sheet{Title: "Sluice", Grid: testGrid, Bars: 1, Parts: []sheet.Part{
		part("Alto", "A.", "alto", sheet.Bar{Measure: m, NewMeter: true, NewKey: true, Barline: sheet.Final})}}
	doc := parse(t, writtenDoc(t, s, Options{}))
	var got [][]string
	for _, n := range doc.part(0)[0].all("note") {
		got = append(got, n.shapes("notations"))
	}
	const strokes = `<ornaments><tremolo type="single">3</tremolo></ornaments>`
	assert.Equal(t, [][]string{
		{`<notations><tied type="start"/>` + strokes + `<articulations><accent placement="above"/></articulations></notations>`},
		{`<notations><tied type="stop"/>` + strokes + `</notations>`},
		{`<notations>` + strokes + `</notations>`},
		nil, // the chord's second head
		{`<notations><ornaments><trill-mark placement="above"/></ornaments></notations>`},
	}, got)
}
