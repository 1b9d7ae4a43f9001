package musicxml

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/layout/sheet"
	"tieover/score"
)

// "Ha-rken now =" under four notes, a second verse under the last two: begin,
// end, a single with its line, none (MusicXML 4.0, elements lyric and extend).
func TestLyrics(t *testing.T) {
	sung := func(verses ...score.Lyric) *sheet.Note {
		n := note(quarter_, at("A4"))
		n.Lyrics = verses
		return n
	}
	m := measure(common4, plainVoice(
		sung(score.Lyric{Text: "Ha", Syllabic: score.WordBegins}, score.Lyric{}),
		sung(score.Lyric{Text: "rken", Syllabic: score.WordEnds}, score.Lyric{}),
		sung(score.Lyric{Text: "now", Extend: true}, score.Lyric{Text: "Stea", Syllabic: score.WordBegins}),
		sung(score.Lyric{}, score.Lyric{Text: "di", Syllabic: score.WordGoesOn})))
	s := &sheet.Sheet{Title: "Lock", Grid: testGrid, Bars: 1, Parts: []sheet.Part{
		part("Voice", "V.", "alto", sheet.Bar{Measure: m, NewMeter: true, NewKey: true, Barline: sheet.Final})}}
	doc := parse(t, writtenDoc(t, s, Options{}))
	var got [][]string
	for _, n := range doc.part(0)[0].all("note") {
		got = append(got, n.shapes("lyric"))
	}
	assert.Equal(t, [][]string{
		{`<lyric number="1"><syllabic>begin</syllabic><text>Ha</text></lyric>`},
		{`<lyric number="1"><syllabic>end</syllabic><text>rken</text></lyric>`},
		{`<lyric number="1"><syllabic>single</syllabic><text>now</text><extend/></lyric>`,
			`<lyric number="2"><syllabic>begin</syllabic><text>Stea</text></lyric>`},
		{`<lyric number="2"><syllabic>middle</syllabic><text>di</text></lyric>`},
	}, got)
}
