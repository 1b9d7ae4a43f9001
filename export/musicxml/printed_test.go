package musicxml

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/layout/sheet"
)

// A bar may print something else than its number, or nothing; the number
// itself stays what readers know the bar by.
func TestPrintedNumbers(t *testing.T) {
	m := emptyBar(1)
	laid := &sheet.Sheet{Title: "T", Grid: testGrid, Bars: 3, Parts: []sheet.Part{part("F", "F", "flute",
		sheet.Bar{Measure: m, NewMeter: true, NewKey: true}, sheet.Bar{Measure: m, Printed: `(2) <"&'>`}, sheet.Bar{Measure: m, Implicit: true})}}
	bars := parse(t, writtenDoc(t, laid, Options{})).part(0)
	require.Len(t, bars, 3)
	assert.Equal(t, []string{"1", "", ""}, []string{bars[0].attr("number"), bars[0].attr("text"), bars[0].attr("implicit")})
	assert.Equal(t, []string{"2", `(2) <"&'>`, ""}, []string{bars[1].attr("number"), bars[1].attr("text"), bars[1].attr("implicit")})
	assert.Equal(t, []string{"3", "", "yes"}, []string{bars[2].attr("number"), bars[2].attr("text"), bars[2].attr("implicit")})
}

// A partner's rhythm is a small cue staff, and the title block still names the
// player.
func TestPartnerStaff(t *testing.T) {
	tap := measure(common4, plainVoice(note(whole_, sheet.Head{})))
	own := measure(common4, plainVoice(note(whole_, at("C5"))))
	above := part("Gate", "G.", "woodblock", sheet.Bar{Measure: tap, NewMeter: true, NewKey: true, Barline: sheet.Final})
	above.Staves[0].Small = true
	laid := &sheet.Sheet{Title: "T", Grid: testGrid, Bars: 1, Parts: []sheet.Part{above,
		part("Flute", "Fl.", "flute", sheet.Bar{Measure: own, NewMeter: true, NewKey: true, Barline: sheet.Final})}}
	doc := parse(t, writtenDoc(t, laid, Options{}))
	assert.Equal(t, []string{`<staff-details><staff-type>cue</staff-type><staff-lines>1</staff-lines><staff-size>60</staff-size></staff-details>`}, doc.shapes("staff-details"))
	assert.Equal(t, []string{"title", "part name"}, doc.texts("credit-type"))
	assert.Equal(t, "Flute", doc.texts("credit-words")[1])
}

// A part says under the player's name how it transposes, unless the name does, or
// it is written as it sounds.
func TestPartsSayTheirKey(t *testing.T) {
	for _, c := range []struct{ name, instrument, want string }{
		{"Barge", "clarinet", "Barge\nin B♭"}, {"Clarinet in B♭", "clarinet", "Clarinet in B♭"}, {"Alto", "alto saxophone", "Alto\nin E♭"},
		{"Horn", "horn", "Horn\nin F"}, {"Flute", "flute", "Flute"}, {"Bass", "bass guitar", "Bass"}, {"Keeper", "tenor", "Keeper"},
	} {
		own := measure(common4, plainVoice(note(whole_, at("C4"))))
		p := part(c.name, "X", c.instrument, sheet.Bar{Measure: own, NewMeter: true, NewKey: true, Barline: sheet.Final})
		laid := &sheet.Sheet{Title: "T", Grid: testGrid, Bars: 1, Parts: []sheet.Part{p}}
		assert.Equal(t, c.want, parse(t, writtenDoc(t, laid, Options{})).texts("credit-words")[1])
		laid.Parts[0].Concert = true
		assert.Equal(t, c.name, parse(t, writtenDoc(t, laid, Options{})).texts("credit-words")[1])
	}
}
