package musicxml

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/beat"
	"tieover/score/instrument"
)

// oneBar is a part of one bar of 4/4 with a half note, another and the marks.
func oneBar(marks ...sheet.Mark) *sheet.Sheet {
	return &sheet.Sheet{Title: "T", Grid: testGrid, Bars: 1, Parts: []sheet.Part{part("Flute", "Fl.", "flute",
		sheet.Bar{Measure: measure(common4, plainVoice(note(half_, at("C4")), note(half_, at("D4")))), Marks: marks})}}
}

// What each mark is written as, put down by hand from the MusicXML 4.0
// reference.
func TestMarks(t *testing.T) {
	words := func(attributes, text string) string {
		return `<direction placement="above"><direction-type><words ` + attributes + `>` + text + `</words></direction-type><staff>1</staff></direction>`
	}
	small := `font-style="normal" font-size="8"`
	for _, c := range []struct {
		mark sheet.Mark
		want string
	}{
		{mark(sheet.Rehearsal, 0, "B1"), `<direction placement="above"><direction-type><rehearsal font-weight="bold" enclosure="rectangle">B1</rehearsal></direction-type><staff>1</staff></direction>`},
		{mark(sheet.Boxed, 0, "B1"), words(`font-style="normal" font-weight="bold" enclosure="rectangle"`, "B1")},
		{mark(sheet.GradualStart, 0, "rit."), `<direction placement="above"><direction-type><words font-style="italic">rit.</words></direction-type><direction-type><dashes type="start" number="1"/></direction-type><staff>1</staff></direction>`},
		{mark(sheet.GradualStop, 0, ""), `<direction placement="above"><direction-type><dashes type="stop" number="1"/></direction-type><staff>1</staff></direction>`},
		{sheet.Mark{Kind: sheet.TempoStep, Tempo: &score.Tempo{Quarters: beat.Of(126, 1)}}, `<sound tempo="126"/>`},
		{sheet.Mark{Kind: sheet.TempoStep, Offset: 30, Tempo: &score.Tempo{Quarters: beat.Of(277, 2)}}, `<sound tempo="138.5"><offset>30</offset></sound>`},
		{mark(sheet.Words, 0, "soft"), words(`font-style="italic"`, "soft")},
		{mark(sheet.Cue, 0, "Vib."), words(small, "Vib.")},
		{mark(sheet.ScoreBar, 0, "score bar 7"), words(small, "score bar 7")},
		{mark(sheet.Grouping, 0, "3+2"), words(small, "3+2")},
		{numbered(sheet.GroupSize, 0, 3), words(small, "3")},
		{sheet.Mark{Kind: sheet.GroupSize, N: 3, Text: sheet.GoesOn}, words(small, "⌜3")},
		{sheet.Mark{Kind: sheet.GroupSize, N: 3, Text: sheet.GoneOn}, words(small, "3⌝")},
		{numbered(sheet.CycleNumber, 0, 12), words(small+` font-weight="bold"`, "12")},
		{sheet.Mark{Kind: sheet.CycleNumber, N: 12, Text: "()"}, words(small, "(12)")},
		{mark(sheet.CycleStart, 0, ""), `<direction placement="above"><direction-type><bracket type="start" number="1" line-end="down" line-type="solid"/></direction-type><staff>1</staff></direction>`},
		{numbered(sheet.HairpinStart, 0, 1), `<direction placement="below"><direction-type><wedge type="crescendo" number="1"/></direction-type><staff>1</staff></direction>`},
		{numbered(sheet.HairpinStart, 0, 2), `<direction placement="below"><direction-type><wedge type="diminuendo" number="1"/></direction-type><staff>1</staff></direction>`},
		{mark(sheet.HairpinStop, 0, ""), `<direction placement="below"><direction-type><wedge type="stop" number="1"/></direction-type><staff>1</staff></direction>`},
		{mark(sheet.DynamicMark, 0, "f"), `<direction placement="below"><direction-type><dynamics><f/></dynamics></direction-type><staff>1</staff><sound dynamics="100"/></direction>`},
		{mark(sheet.DynamicMark, 0, "dry"), `<direction placement="below"><direction-type><dynamics><other-dynamics>dry</other-dynamics></dynamics></direction-type><staff>1</staff></direction>`},
		{mark(sheet.ChordSymbol, 0, "Cfoo"), words(`font-style="normal"`, "Cfoo")},
		{sheet.Mark{Kind: sheet.Boxed, Text: "B1", Offset: 45}, `<direction placement="above"><direction-type><words font-style="normal" font-weight="bold" enclosure="rectangle">B1</words></direction-type><offset>45</offset><staff>1</staff></direction>`},
		{mark(sheet.Stroke, 0, ""), `<barline location="middle"><bar-style>dashed</bar-style></barline>`},
	} {
		bar := parse(t, writtenDoc(t, oneBar(c.mark), Options{})).part(0)[0]
		// print, attributes, then the mark and two notes.
		require.Len(t, bar.Children, 5, "%+v", c.mark)
		assert.Equal(t, c.want, bar.Children[2].shape())
	}
}

func TestMarksStandDirectlyBeforeTheirNote(t *testing.T) {
	bar := parse(t, writtenDoc(t, oneBar(mark(sheet.Words, 0, "a"), mark(sheet.CycleStop, 1, ""), mark(sheet.Boxed, 2, "c")), Options{})).part(0)[0]
	var names []string
	for _, c := range bar.Children {
		names = append(names, c.name())
	}
	assert.Equal(t, []string{"print", "attributes", "direction", "note", "direction", "note", "direction"}, names)
}

// A dashed stroke inside a held note: time moves to it and back.
func TestStrokeInsideANote(t *testing.T) {
	bar := parse(t, writtenDoc(t, oneBar(sheet.Mark{Kind: sheet.Stroke, Before: 1, Offset: 30}), Options{})).part(0)[0]
	assert.Equal(t, `<forward><duration>30</duration></forward>`, bar.Children[3].shape())
	assert.Equal(t, "barline", bar.Children[4].name())
	assert.Equal(t, `<backup><duration>30</duration></backup>`, bar.Children[5].shape())
}

// Speeds in quarters a minute are worked out by hand: 88 dotted quarters are
// 132 quarters, 264 eighths too.
func TestTempoMarks(t *testing.T) {
	quarter, eighth, dotted := beat.Of(1, 4), beat.Of(1, 8), beat.Of(3, 8)
	value := func(s beat.Span) *score.Value { return &score.Value{Base: s, Actual: 1, Normal: 1} }
	for _, c := range []struct {
		tempo score.Tempo
		want  []string
	}{
		{score.Tempo{Quarters: beat.Of(132, 1), Beat: dotted, Rate: beat.Of(88, 1)},
			[]string{`<metronome><beat-unit>quarter</beat-unit><beat-unit-dot/><per-minute>88</per-minute></metronome>`, `<sound tempo="132"/>`}},
		{score.Tempo{Quarters: beat.Of(132, 1), Beat: eighth, Rate: beat.Of(264, 1)},
			[]string{`<metronome><beat-unit>eighth</beat-unit><per-minute>264</per-minute></metronome>`, `<sound tempo="132"/>`}},
		{score.Tempo{Quarters: beat.Of(265, 2), Beat: quarter, Rate: beat.Of(265, 2)},
			[]string{`<metronome><beat-unit>quarter</beat-unit><per-minute>132.5</per-minute></metronome>`, `<sound tempo="132.5"/>`}},
		{score.Tempo{Quarters: beat.Of(400, 3), Beat: quarter, Rate: beat.Of(400, 3)},
			[]string{`<metronome><beat-unit>quarter</beat-unit><per-minute>c. 133.33</per-minute></metronome>`, `<sound tempo="133.333333"/>`}},
		{score.Tempo{Quarters: beat.Of(88, 1), Beat: quarter, Rate: beat.Of(88, 1), Old: value(dotted), New: value(quarter)},
			[]string{`<metronome><beat-unit>quarter</beat-unit><per-minute>88</per-minute></metronome>`, `<sound tempo="88"/>`,
				`<metronome parentheses="yes"><beat-unit>quarter</beat-unit><beat-unit-dot/><beat-unit>quarter</beat-unit></metronome>`}},
		{score.Tempo{Quarters: beat.Of(90, 1), Beat: quarter, Rate: beat.Of(90, 1), Old: &score.Value{Base: quarter, Tied: eighth, Actual: 1, Normal: 1}, New: value(quarter)},
			[]string{`<metronome><beat-unit>quarter</beat-unit><per-minute>90</per-minute></metronome>`, `<sound tempo="90"/>`,
				`<metronome parentheses="yes"><beat-unit>quarter</beat-unit><beat-unit-tied><beat-unit>eighth</beat-unit></beat-unit-tied><beat-unit>quarter</beat-unit></metronome>`}},
		{score.Tempo{Quarters: beat.Of(198, 1), Beat: quarter, Rate: beat.Of(198, 1), Old: &score.Value{Base: eighth, Actual: 3, Normal: 2}, New: value(eighth)},
			[]string{`<metronome><beat-unit>quarter</beat-unit><per-minute>198</per-minute></metronome>`, `<sound tempo="198"/>`,
				`<metronome parentheses="yes"><metronome-note><metronome-type>eighth</metronome-type><metronome-tuplet type="start" bracket="yes" show-number="actual"><actual-notes>3</actual-notes><normal-notes>2</normal-notes></metronome-tuplet></metronome-note><metronome-relation>equals</metronome-relation><metronome-note><metronome-type>eighth</metronome-type></metronome-note></metronome>`}},
		{score.Tempo{Words: "Lively", Quarters: beat.Of(132, 1), Beat: quarter, Rate: beat.Of(132, 1)},
			[]string{`<words font-style="normal" font-weight="bold">Lively</words>`,
				`<metronome><beat-unit>quarter</beat-unit><per-minute>132</per-minute></metronome>`, `<sound tempo="132"/>`}},
		{score.Tempo{Kind: score.ATempo, Words: "a tempo", Quarters: beat.Of(132, 1), Beat: quarter, Rate: beat.Of(132, 1)},
			[]string{`<words font-style="normal" font-weight="bold">a tempo</words>`, `<sound tempo="132"/>`}},
	} {
		bar := parse(t, writtenDoc(t, oneBar(sheet.Mark{Kind: sheet.TempoMark, Tempo: &c.tempo}), Options{})).part(0)[0]
		var got []string
		for _, d := range bar.all("direction") {
			assert.Equal(t, "yes", d.attr("directive"))
			got = append(got, d.shapes("words")...)
			got = append(got, d.shapes("metronome")...)
			got = append(got, d.shapes("sound")...)
		}
		assert.Equal(t, c.want, got)
	}
}

func TestHarmony(t *testing.T) {
	bar := parse(t, writtenDoc(t, oneBar(sheet.Mark{Kind: sheet.ChordSymbol, Text: "F#7b9/E", Before: 1, Offset: 30}), Options{})).part(0)[0]
	assert.Equal(t, `<harmony placement="above"><root><root-step>F</root-step><root-alter>1</root-alter></root><kind text="7b9">dominant</kind>`+
		`<bass><bass-step>E</bass-step></bass><degree print-object="no"><degree-value>9</degree-value><degree-alter>-1</degree-alter><degree-type>add</degree-type></degree>`+
		`<offset>30</offset><staff>1</staff></harmony>`, bar.Children[3].shape())
}

// Accents have a side, below in a voice with stems down; dots and dashes keep to
// the head, outside in a voice with a side, and beside an accent.
func TestSidesOfArticulations(t *testing.T) {
	note := &sheet.Note{}
	for _, c := range []struct {
		stem   sheet.Stem
		shared bool
		accent bool
		touch  score.Touch
		want   string
	}{
		{sheet.StemFree, false, true, score.Plain, `<accent placement="above"/>`},
		{sheet.StemDown, true, true, score.Plain, `<accent placement="below"/>`},
		{sheet.StemFree, false, false, score.Accented, `<accent placement="above"/>`},
		{sheet.StemUp, true, false, score.Marcato, `<strong-accent placement="above" type="up"/>`},
		{sheet.StemDown, true, false, score.Marcato, `<strong-accent placement="below" type="down"/>`},
		{sheet.StemFree, false, false, score.Staccato, `<staccato/>`},
		{sheet.StemUp, true, false, score.Staccato, `<staccato placement="above"/>`},
		{sheet.StemDown, true, false, score.Tenuto, `<tenuto placement="below"/>`},
		{sheet.StemUp, false, false, score.Staccato, `<staccato placement="above"/>`},
		{sheet.StemFree, false, false, score.Accented | score.Staccato, `<accent placement="above"/><staccato placement="above"/>`},
		{sheet.StemFree, false, false, score.Staccato | score.Tenuto | score.Ghost, `<staccato/><tenuto/>`},
		{sheet.StemFree, false, true, score.Staccato, `<accent placement="above"/><staccato placement="above"/>`},
	} {
		note.Accent, note.Touch = c.accent, c.touch
		var l lines
		touches(&l, &sheet.Voice{Stem: c.stem}, note, c.shared)
		assert.Equal(t, "<articulations>"+c.want+"</articulations>", strings.NewReplacer("\n", "", indent, "").Replace(string(l.buf)))
	}
}

// A change of key stands in the attributes of its bar, after the break; from the
// MusicXML 4.0 reference, by hand.
func TestKeyChange(t *testing.T) {
	before, after := measure(common4, plainVoice(note(half_, at("C4")), note(half_, at("D4")))), measure(common4, plainVoice(note(half_, at("C4")), note(half_, at("D4"))))
	after.Key = score.Key{Fifths: 5, Mode: "major"}
	bars := parse(t, writtenDoc(t, &sheet.Sheet{Title: "T", Grid: testGrid, Bars: 2, Parts: []sheet.Part{part("Flute", "Fl.", "flute",
		sheet.Bar{Measure: before, Barline: sheet.Double}, sheet.Bar{Measure: after, NewKey: true, Break: sheet.NewSystem})}}, Options{})).part(0)
	assert.Equal(t, `<barline location="right"><bar-style>light-light</bar-style></barline>`, bars[0].Children[len(bars[0].Children)-1].shape())
	assert.Equal(t, "print", bars[1].Children[0].name())
	assert.Equal(t, `<attributes><key><fifths>5</fifths><mode>major</mode></key></attributes>`, bars[1].Children[1].shape())
}

// A fermata stands on a note's first head and on rests, upside down in a lower
// voice.
func TestFermatas(t *testing.T) {
	held := note(half_, at("C4"), at("E4"))
	held.Fermata = true
	v := plainVoice(held, &sheet.Rest{Start: 120, Length: 120, Value: half_, Fermata: true})
	for stem, kind := range map[sheet.Stem]string{sheet.StemFree: "upright", sheet.StemUp: "upright", sheet.StemDown: "inverted"} {
		v.Stem = stem
		s := &sheet.Sheet{Title: "T", Grid: testGrid, Bars: 1, Parts: []sheet.Part{part("Flute", "Fl.", "flute", sheet.Bar{Measure: measure(common4, v)})}}
		notes := parse(t, writtenDoc(t, s, Options{})).part(0)[0].all("note")
		sign := `<notations><fermata type="` + kind + `"/></notations>`
		require.Len(t, notes, 3)
		assert.Equal(t, []string{sign}, notes[0].shapes("notations"))
		assert.Empty(t, notes[1].shapes("notations"))
		assert.Equal(t, []string{sign}, notes[2].shapes("notations"))
	}
}

// Words of technique are upright and sound; by hand from the MusicXML 4.0 schema.
func TestTechniqueSounds(t *testing.T) {
	for _, c := range []struct{ on, words, sound string }{
		{"cello", "pizz.", `<sound pizzicato="yes"/>`}, {"cello", "arco", `<sound pizzicato="no"/>`},
		{"trumpet", "harmon mute", `<sound><play><mute>harmon-no-stem</mute></play></sound>`},
		{"horn", "open", `<sound><play><mute>off</mute></play></sound>`},
		{"violin", "con sord.", `<sound><play><mute>on</mute></play></sound>`}, {"flute", "solo", ""},
	} {
		way, ok := mustFind(c.on).Technique(c.words)
		require.True(t, ok)
		bar := parse(t, writtenDoc(t, oneBar(sheet.Mark{Kind: sheet.TechniqueMark, Text: c.words, Technique: way}), Options{})).part(0)[0]
		assert.Equal(t, `<direction placement="above"><direction-type><words font-style="normal">`+c.words+`</words></direction-type><staff>1</staff>`+c.sound+`</direction>`,
			bar.all("direction")[0].shape())
	}
}

// A change of clef stands in the attributes of its bar; rests of two voices keep
// their halves of the staff in it. From the MusicXML 4.0 reference, by hand: in
// tenor clef the middle line is A3, five steps above it F4.
func TestClefChange(t *testing.T) {
	before, after := measure(common4, plainVoice(note(half_, at("C4")), note(half_, at("D4")))), measure(common4,
		voice(1, 1, sheet.StemUp, rest(half_), note(half_, at("C4"))), voice(1, 2, sheet.StemDown, note(half_, at("C4")), note(half_, at("D4"))))
	after.Clefs = []instrument.Clef{instrument.ClefOf("tenor")}
	bars := parse(t, writtenDoc(t, &sheet.Sheet{Title: "T", Grid: testGrid, Bars: 2, Parts: []sheet.Part{part("Cello", "Vc.", "cello",
		sheet.Bar{Measure: before}, sheet.Bar{Measure: after, NewClef: true})}}, Options{})).part(0)
	assert.Contains(t, bars[0].Children[0].shape()+bars[0].Children[1].shape(), "<clef><sign>F</sign><line>4</line></clef>")
	assert.Equal(t, "<attributes><clef><sign>C</sign><line>4</line></clef></attributes>", bars[1].Children[0].shape())
	assert.Contains(t, bars[1].Children[1].shape(), "<display-step>F</display-step><display-octave>4</display-octave>")
}

// A slur has its voice's number: 1 on the first staff, 5 on the second; by hand from
// the MusicXML 4.0 schema.
func TestSlurs(t *testing.T) {
	first, last := note(half_, at("C4")), note(half_, at("D4"))
	first.Slur.Starts, last.Slur.Stops = true, true
	low, end := note(half_, at("C3")), note(half_, at("D3"))
	low.Slur.Starts, end.Slur.Stops = true, true
	bar := measure(common4, voice(1, 1, sheet.StemFree, first, last), voice(2, 5, sheet.StemFree, low, end))
	doc := string(writtenDoc(t, &sheet.Sheet{Title: "T", Grid: testGrid, Bars: 1, Parts: []sheet.Part{part("Piano", "Pno.", "piano", sheet.Bar{Measure: bar})}}, Options{}))
	for _, want := range []string{`<slur type="start" number="1"/>`, `<slur type="stop" number="1"/>`, `<slur type="start" number="5"/>`, `<slur type="stop" number="5"/>`} {
		assert.Equal(t, 1, strings.Count(doc, want), want)
	}
}
