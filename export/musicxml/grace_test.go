package musicxml

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/layout/sheet"
)

// A single grace note has a slash and is an eighth; two are 16ths under two beams,
// of which the first begins the slur that its note ends. What has no pitch has no
// slur (MusicXML 4.0: a grace note has no duration; the order of the children of a
// note).
func TestGraceNotes(t *testing.T) {
	grace := func(v sheet.Value, beam sheet.Beam, heads ...sheet.Head) *sheet.Note {
		n := note(v, heads...)
		n.Length = 0
		if beam != sheet.NoBeam {
			n.Beams = []sheet.Beam{beam, beam}
		}
		return n
	}
	sharp := at("F#5")
	sharp.Accidental = sheet.Sharp
	one := note(half_, at("E5"))
	one.Graces = []*sheet.Note{grace(eighth_, sheet.NoBeam, sharp)}
	two := note(half_, at("E5"))
	two.Graces = []*sheet.Note{grace(six_, sheet.BeamBegin, at("C5")), grace(six_, sheet.BeamEnd, at("D5"), at("F5"))}
	s := &sheet.Sheet{Title: "Sluice", Grid: testGrid, Bars: 1, Parts: []sheet.Part{
		part("Flute", "Fl.", "flute", sheet.Bar{Measure: measure(common4, plainVoice(one, two)), NewMeter: true, NewKey: true, Barline: sheet.Final})}}
	doc := parse(t, writtenDoc(t, s, Options{}))
	notes := doc.part(0)[0].shapes("note")
	const voice, stem = `<voice>1</voice>`, `<stem>up</stem>`
	assert.Equal(t, []string{
		`<note><grace slash="yes"/><pitch><step>F</step><alter>1</alter><octave>5</octave></pitch>` + voice + `<type>eighth</type><accidental>sharp</accidental>` + stem +
			`<notations><slur type="start" number="2"/></notations></note>`,
		`<note><pitch><step>E</step><octave>5</octave></pitch><duration>` + "120" + `</duration>` + voice + `<type>half</type><notations><slur type="stop" number="2"/></notations></note>`,
		`<note><grace/><pitch><step>C</step><octave>5</octave></pitch>` + voice + `<type>16th</type>` + stem + `<beam number="1">begin</beam><beam number="2">begin</beam>` +
			`<notations><slur type="start" number="2"/></notations></note>`,
		`<note><grace/><pitch><step>D</step><octave>5</octave></pitch>` + voice + `<type>16th</type>` + stem + `<beam number="1">end</beam><beam number="2">end</beam></note>`,
		`<note><grace/><chord/><pitch><step>F</step><octave>5</octave></pitch>` + voice + `<type>16th</type>` + stem + `</note>`,
		`<note><pitch><step>E</step><octave>5</octave></pitch><duration>` + "120" + `</duration>` + voice + `<type>half</type><notations><slur type="stop" number="2"/></notations></note>`,
	}, notes)
}
