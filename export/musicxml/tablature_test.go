package musicxml

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/fingering"
	"tieover/score/instrument"
)

// tabPart is a guitar's part with tablature.
func tabPart(bars ...sheet.Bar) sheet.Part {
	p := part("Guitar", "Gtr.", "guitar", bars...)
	p.Staves = append(p.Staves, sheet.Staff{Clef: instrument.Clef{Sign: instrument.Tab, Line: 5}, Lines: 6, Tuning: []score.Tone{
		{Step: 'E', Octave: 2}, {Step: 'B', Alter: -1, Octave: 2}, {Step: 'D', Octave: 3}, {Step: 'G', Octave: 3}, {Step: 'B', Octave: 3}, {Step: 'E', Octave: 4}}})
	return p
}

// stopped is a head on a string at a fret.
func stopped(h sheet.Head, s, fret int8) sheet.Head {
	h.Stop = fingering.Stop{String: s, Fret: fret}
	return h
}

// Below the notes, which are written an octave higher, stand a clef TAB, the strings from
// the lowest, and each note at sounding pitch with its string and fret: without stem, its
// tied-in piece and the silence hidden. Of grace notes only the signs that belong to
// strings are repeated (MusicXML 4.0: clef-sign TAB, staff-tuning, technical; the order of
// the children of attributes and of a note).
func TestTablature(t *testing.T) {
	grace := note(eighth_, stopped(at("B4"), 3, 4))
	grace.Length = 0
	led := tiedOut(note(quarter_, stopped(at("C5"), 3, 5)))
	led.Graces = []*sheet.Note{grace}
	ghost := touched(note(quarter_, stopped(at("A4"), 3, 2), stopped(at("D5"), 2, 3)), score.Ghost)
	s := &sheet.Sheet{Title: "Sluice", Grid: testGrid, Bars: 1, Parts: []sheet.Part{
		tabPart(sheet.Bar{Measure: measure(common4, plainVoice(led, tiedIn(note(quarter_, stopped(at("C5"), 3, 5))), ghost, rest(quarter_))), NewMeter: true, NewKey: true, Barline: sheet.Final})}}
	doc := parse(t, writtenDoc(t, s, Options{}))
	bar := doc.part(0)[0]
	tuning := func(line, step, octave string) string {
		return `<staff-tuning line="` + line + `"><tuning-step>` + step + `</tuning-step><tuning-octave>` + octave + `</tuning-octave></staff-tuning>`
	}
	assert.Contains(t, bar.shapes("attributes")[0], `<staves>2</staves><part-symbol top-staff="1" bottom-staff="2">bracket</part-symbol>`+
		`<clef number="1"><sign>G</sign><line>2</line></clef><clef number="2"><sign>TAB</sign><line>5</line></clef>`+
		`<staff-details number="2"><staff-lines>6</staff-lines>`+tuning("1", "E", "2")+
		`<staff-tuning line="2"><tuning-step>B</tuning-step><tuning-alter>-1</tuning-alter><tuning-octave>2</tuning-octave></staff-tuning>`+
		tuning("3", "D", "3")+tuning("4", "G", "3")+tuning("5", "B", "3")+tuning("6", "E", "4")+`</staff-details>`+
		`<transpose number="1"><diatonic>0</diatonic><chromatic>0</chromatic><octave-change>-1</octave-change></transpose>`)
	const c4, tail = `<pitch><step>C</step><octave>4</octave></pitch><duration>60</duration>`, `<stem>none</stem><staff>2</staff>`
	place := func(s, fret string) string {
		return `<technical><string>` + s + `</string><fret>` + fret + `</fret></technical></notations></note>`
	}
	assert.Equal(t, []string{
		`<note><grace slash="yes"/><pitch><step>B</step><octave>3</octave></pitch><voice>5</voice><type>eighth</type>` + tail + `<notations>` + place("3", "4"),
		`<note>` + c4 + `<tie type="start"/><voice>5</voice><type>quarter</type>` + tail + `<notations><tied type="start"/>` + place("3", "5"),
		`<note print-object="no">` + c4 + `<tie type="stop"/><voice>5</voice><type>quarter</type>` + tail + `<notations><tied type="stop"/>` + place("3", "5"),
		`<note><pitch><step>A</step><octave>3</octave></pitch><duration>60</duration><voice>5</voice><type>quarter</type><stem>none</stem>` +
			`<notehead parentheses="yes">normal</notehead><staff>2</staff><notations>` + place("3", "2"),
		`<note><chord/><pitch><step>D</step><octave>4</octave></pitch><duration>60</duration><voice>5</voice><type>quarter</type><stem>none</stem>` +
			`<notehead parentheses="yes">normal</notehead><staff>2</staff><notations>` + place("2", "3"),
		`<note print-object="no"><rest/><duration>60</duration><voice>5</voice><type>quarter</type><staff>2</staff></note>`,
	}, bar.shapes("note")[6:])
}

// A part says under the player's name how its strings are tuned, the lowest first, unless
// as usual; with octaves where the letters alone would say the usual.
func TestPartsSayTheirTuning(t *testing.T) {
	pitches := map[byte]score.Tone{'d': {Step: 'D', Octave: 2}, 'e': {Step: 'E', Octave: 2}, 'b': {Step: 'B', Alter: -1, Octave: 2}, 'l': {Step: 'E', Octave: 1},
		'A': {Step: 'A', Octave: 2}, 'D': {Step: 'D', Octave: 3}, 'G': {Step: 'G', Octave: 3}, 'B': {Step: 'B', Octave: 3}, 'E': {Step: 'E', Octave: 4}}
	for _, c := range []struct{ strings, want string }{
		{"eADGBE", "Guitar"}, {"dADGBE", "Guitar\nTuning: D A D G B E"}, {"ebDGBE", "Guitar\nTuning: E B♭ D G B E"}, {"lADGBE", "Guitar\nTuning: E1 A2 D3 G3 B3 E4"},
	} {
		p := tabPart(sheet.Bar{Measure: measure(common4, plainVoice(note(whole_, stopped(at("E5"), 1, 0)))), NewMeter: true, NewKey: true, Barline: sheet.Final})
		for i := range c.strings {
			p.Staves[1].Tuning[i] = pitches[c.strings[i]]
		}
		doc := parse(t, writtenDoc(t, &sheet.Sheet{Title: "T", Grid: testGrid, Bars: 1, Parts: []sheet.Part{p}}, Options{}))
		assert.Equal(t, c.want, doc.texts("credit-words")[1])
	}
}

// A second voice is written below only where it sounds; slashes have no frets.
func TestTablatureOfVoices(t *testing.T) {
	low := func(events ...sheet.Event) sheet.Voice {
		return sheet.Voice{Staff: 1, Number: 2, Stem: sheet.StemDown, Events: events}
	}
	whole := sheet.Value{}
	s := &sheet.Sheet{Title: "Sluice", Grid: testGrid, Bars: 3, Parts: []sheet.Part{tabPart(
		sheet.Bar{Measure: measure(common4, plainVoice(note(whole, stopped(at("E5"), 1, 0))), low(note(whole, stopped(at("E3"), 6, 0)))), NewMeter: true, NewKey: true},
		sheet.Bar{Measure: measure(common4, plainVoice(note(whole, stopped(at("E5"), 1, 0))), low(wholeRest(4*quarter)))},
		sheet.Bar{Measure: measure(common4, sheet.Voice{Staff: 1, Number: 1, As: score.AsRhythm, Events: []sheet.Event{note(whole, sheet.Head{})}}), Barline: sheet.Final})}}
	doc := parse(t, writtenDoc(t, s, Options{}))
	var got [][]string
	for _, bar := range doc.part(0) {
		var voices []string
		for _, n := range bar.all("note") {
			voices = append(voices, n.text("voice")+"/"+n.text("staff")+map[bool]string{true: " rest"}[len(n.all("rest")) > 0])
		}
		got = append(got, voices)
	}
	assert.Equal(t, [][]string{{"1/1", "2/1", "5/2", "6/2"}, {"1/1", "2/1 rest", "5/2"}, {"1/1", "5/2 rest"}}, got)
}
