package musicxml

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/instrument"
)

// A player changes from the flute to the alto saxophone, which sounds a major sixth
// lower than written, in bar 2, and back in bar 3. In C major the alto reads three
// sharps. Sound ids are those of the standard's list, programs General MIDI's from 1;
// the rest by hand from the MusicXML 4.0 reference.
func TestDoubling(t *testing.T) {
	flute, alto := mustFind("flute"), mustFind("alto saxophone")
	on := func(i *instrument.Instrument, fifths int, tone string) *sheet.Measure {
		m := measure(common4, plainVoice(note(whole_, at(tone))))
		m.Instrument, m.Key = i, score.Key{Fifths: fifths}
		return m
	}
	takes := func(i *instrument.Instrument, text string) sheet.Mark {
		return sheet.Mark{Kind: sheet.InstrumentMark, Text: text, Instrument: i}
	}
	p := part("Reed 1", "", "flute",
		sheet.Bar{Measure: on(flute, 0, "E5"), NewMeter: true, NewKey: true, Marks: []sheet.Mark{{Kind: sheet.InstrumentMark, Before: 1, Text: "to Alto Sax."}}},
		sheet.Bar{Measure: on(alto, 3, "C#5"), NewKey: true, NewInstrument: true, Marks: []sheet.Mark{takes(alto, "Alto Sax.")}},
		sheet.Bar{Measure: on(flute, 0, "E5"), NewKey: true, NewInstrument: true, Marks: []sheet.Mark{takes(flute, "Flute")}})
	p.Instruments = []*instrument.Instrument{flute, alto}
	laid := &sheet.Sheet{Title: "T", Grid: testGrid, Bars: 3, Parts: []sheet.Part{p}}
	doc := parse(t, writtenDoc(t, laid, Options{}))
	bars := doc.part(0)

	assert.Equal(t, `<words font-style="normal">to Alto Sax.</words>`, bars[0].all("words")[0].shape())
	second := bars[1].Children
	require.GreaterOrEqual(t, len(second), 3)
	assert.Equal(t, "<attributes><key><fifths>3</fifths></key><transpose><diatonic>-5</diatonic><chromatic>-9</chromatic></transpose></attributes>", second[0].shape())
	assert.Equal(t, `<direction placement="above"><direction-type><words font-style="normal" font-weight="bold">Alto Sax.</words></direction-type><staff>1</staff>`+
		`<sound><instrument-change id="P1-I2"><instrument-sound>wind.reed.saxophone.alto</instrument-sound></instrument-change></sound></direction>`, second[1].shape())
	assert.Equal(t, "<attributes><key><fifths>0</fifths></key><transpose><diatonic>0</diatonic><chromatic>0</chromatic></transpose></attributes>", bars[2].Children[0].shape())
	for i, want := range []string{"P1-I1", "P1-I2", "P1-I1"} {
		assert.Equal(t, []string{`<instrument id="` + want + `"/>`}, bars[i].all("note")[0].shapes("instrument"))
	}

	list := doc.all("score-part")[0]
	assert.Equal(t, []string{
		`<score-instrument id="P1-I1"><instrument-name>Flute</instrument-name><instrument-sound>wind.flutes.flute</instrument-sound><solo/></score-instrument>`,
		`<score-instrument id="P1-I2"><instrument-name>Alto Saxophone</instrument-name><instrument-sound>wind.reed.saxophone.alto</instrument-sound><solo/></score-instrument>`,
	}, list.shapes("score-instrument"))
	assert.Equal(t, []string{
		`<midi-instrument id="P1-I1"><midi-channel>1</midi-channel><midi-program>74</midi-program></midi-instrument>`,
		`<midi-instrument id="P1-I2"><midi-channel>2</midi-channel><midi-program>66</midi-program></midi-instrument>`,
	}, list.shapes("midi-instrument"))
}
