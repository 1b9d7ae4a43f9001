package musicxml

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/layout"
)

// A bar may print something else than its number, or nothing; the number
// itself stays what readers know the bar by.
func TestPrintedNumbers(t *testing.T) {
	m := emptyBar(1)
	sheet := &layout.Sheet{Title: "T", Grid: testGrid, Bars: 3, Parts: []layout.Part{part("F", "F", "flute",
		layout.Bar{Measure: m, NewMeter: true, NewKey: true}, layout.Bar{Measure: m, Printed: `(2) <"&'>`}, layout.Bar{Measure: m, Implicit: true})}}
	bars := parse(t, writtenDoc(t, sheet, Options{})).part(0)
	require.Len(t, bars, 3)
	assert.Equal(t, []string{"1", "", ""}, []string{bars[0].attr("number"), bars[0].attr("text"), bars[0].attr("implicit")})
	assert.Equal(t, []string{"2", `(2) <"&'>`, ""}, []string{bars[1].attr("number"), bars[1].attr("text"), bars[1].attr("implicit")})
	assert.Equal(t, []string{"3", "", "yes"}, []string{bars[2].attr("number"), bars[2].attr("text"), bars[2].attr("implicit")})
}

// A partner's rhythm is a small cue staff, and the title block still names the
// player.
func TestPartnerStaff(t *testing.T) {
	tap := measure(common4, plainVoice(note(whole_, layout.Head{})))
	own := measure(common4, plainVoice(note(whole_, at("C5"))))
	above := part("Gate", "G.", "woodblock", layout.Bar{Measure: tap, NewMeter: true, NewKey: true, Barline: layout.Final})
	above.Staves[0].Small = true
	sheet := &layout.Sheet{Title: "T", Grid: testGrid, Bars: 1, Parts: []layout.Part{above,
		part("Flute", "Fl.", "flute", layout.Bar{Measure: own, NewMeter: true, NewKey: true, Barline: layout.Final})}}
	doc := parse(t, writtenDoc(t, sheet, Options{}))
	assert.Equal(t, []string{`<staff-details><staff-type>cue</staff-type><staff-lines>1</staff-lines><staff-size>60</staff-size></staff-details>`}, doc.shapes("staff-details"))
	assert.Equal(t, []string{"title", "part name"}, doc.texts("credit-type"))
	assert.Equal(t, "Flute", doc.texts("credit-words")[1])
}
