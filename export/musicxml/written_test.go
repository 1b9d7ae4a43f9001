package musicxml

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/layout/sheet"
	"tieover/score"
)

// stylesOf lists the measure-styles of each bar of the first part.
func stylesOf(t *testing.T, s *sheet.Sheet) (all [][]string) {
	for _, bar := range parse(t, writtenDoc(t, s, Options{})).part(0) {
		var styles []string
		for _, a := range bar.all("attributes") {
			styles = append(styles, a.shapes("measure-style")...)
		}
		all = append(all, styles)
	}
	return all
}

// Slashes begin with bar 2 and end before bar 4: one a beat on the middle line of
// each clef, B4 in treble and D3 in bass clef, without stems. A rhythm has stems
// (MusicXML 4.0: slash, unpitched, notehead-value).
func TestSlashes(t *testing.T) {
	as := func(w score.Written, notes ...any) *sheet.Measure {
		v := plainVoice(notes...)
		v.As = w
		return measure(common4, v)
	}
	notes, bare := as(score.AsNotes, note(whole_, at("C4"))), sheet.Head{}
	slashes := as(score.AsSlashes, note(quarter_, bare), note(quarter_, bare), note(half_, bare))
	rhythm := as(score.AsRhythm, accented(note(half_, bare)), tiedOut(note(half_, bare)))
	end := as(score.AsRhythm, tiedIn(note(whole_, bare)))
	s := &sheet.Sheet{Title: "Sluice", Grid: testGrid, Bars: 5, Parts: []sheet.Part{part("Bass", "B.", "bass guitar",
		sheet.Bar{Number: 1, Measure: notes, NewMeter: true, NewKey: true}, sheet.Bar{Number: 2, Measure: slashes}, sheet.Bar{Number: 3, Measure: slashes},
		sheet.Bar{Number: 4, Measure: rhythm}, sheet.Bar{Number: 5, Measure: end, Barline: sheet.Final})}}
	assert.Equal(t, [][]string{nil,
		{`<measure-style><slash type="start" use-stems="no"/></measure-style>`}, nil,
		{`<measure-style><slash type="stop"/></measure-style>`}, nil}, stylesOf(t, s))
	doc := parse(t, writtenDoc(t, s, Options{}))
	const middle = `<unpitched><display-step>D</display-step><display-octave>3</display-octave></unpitched>`
	assert.Equal(t, `<note>`+middle+`<duration>60</duration><instrument id="P1-I1"/><voice>1</voice><type>quarter</type><stem>none</stem><notehead>slash</notehead></note>`,
		doc.part(0)[1].shapes("note")[0])
	assert.Equal(t, `<note>`+middle+`<duration>120</duration><instrument id="P1-I1"/><voice>1</voice><type>half</type><notehead>slash</notehead>`+
		`<notations><articulations><accent placement="above"/></articulations></notations></note>`, doc.part(0)[3].shapes("note")[0])
	for clef, want := range map[string]string{"flute": "B4", "viola": "C4", "cello": "D3"} {
		step, octave := part("X", "X", clef, sheet.Bar{Measure: notes}).Staves[0].Middle()
		assert.Equal(t, want, string(rune(step))+string(rune('0'+octave)), clef)
	}
}

// Signs for equal bars begin with the first that has one and end before the first
// that has its notes; the notes of all are there.
func TestRepeatedBars(t *testing.T) {
	m := measure(common4, plainVoice(note(whole_, at("C4"))))
	bar := func(n, repeats int) sheet.Bar { return sheet.Bar{Number: n, Measure: m, Repeats: [2]int{repeats}} }
	first, last := bar(1, 0), bar(5, 2)
	first.NewMeter, first.NewKey, last.Barline = true, true, sheet.Final
	s := &sheet.Sheet{Title: "Sluice", Grid: testGrid, Bars: 5, Parts: []sheet.Part{part("Flute", "F.", "flute", first, bar(2, 2), bar(3, 3), bar(4, 0), last)}}
	assert.Equal(t, [][]string{nil,
		{`<measure-style><measure-repeat type="start">1</measure-repeat></measure-style>`}, nil,
		{`<measure-style><measure-repeat type="stop"/></measure-style>`},
		{`<measure-style><measure-repeat type="start">1</measure-repeat></measure-style>`}}, stylesOf(t, s))
	for _, bar := range parse(t, writtenDoc(t, s, Options{})).part(0) {
		assert.Len(t, bar.all("note"), 1)
	}
}
