package musicxml

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/score/heard"
)

// partwise wraps the bars of one part, written in a short hand, in a score.
func partwise(name string, bars ...string) string {
	s := `<?xml version="1.0" encoding="UTF-8"?><score-partwise version="4.0"><part-list><score-part id="P1"><part-name>` + name + `</part-name></score-part></part-list><part id="P1">`
	for i, b := range bars {
		attrs := fmt.Sprintf(` number="%d"`, i+1)
		if rest, ok := strings.CutPrefix(b, "!"); ok { // "!0" and so on: an implicit bar
			number, content, _ := strings.Cut(rest, " ")
			attrs, b = ` number="`+number+`" implicit="yes"`, content
		}
		s += "<measure" + attrs + ">" + b + "</measure>"
	}
	return s + "</part></score-partwise>"
}

// note writes a pitch and its duration, with extra elements in place.
func noteOf(pitch string, duration int, extra ...string) string {
	step, alter, octave := pitch[:1], "", pitch[len(pitch)-1:]
	switch pitch[1 : len(pitch)-1] {
	case "#":
		alter = "<alter>1</alter>"
	case "b":
		alter = "<alter>-1</alter>"
	}
	return fmt.Sprintf("<note><pitch><step>%s</step>%s<octave>%s</octave></pitch><duration>%d</duration>%s</note>", step, alter, octave, duration, strings.Join(extra, ""))
}

func restOf(duration int) string {
	return fmt.Sprintf("<note><rest/><duration>%d</duration></note>", duration)
}

const (
	eighths = "<attributes><divisions>2</divisions><time><beats>4</beats><beat-type>4</beat-type></time></attributes>"
	ties    = `<tie type="start"/>`
	tied    = `<tie type="stop"/>`
	back    = "<backup><duration>8</duration></backup>"
	again   = `<barline location="right"><repeat direction="backward"/></barline>`
)

// guitarStaves are a staff of notes, which sound an octave lower, and one of tablature.
const guitarStaves = "<attributes><divisions>2</divisions><staves>2</staves><clef number=\"1\"><sign>G</sign><line>2</line></clef>" +
	"<clef number=\"2\"><sign>TAB</sign><line>5</line></clef><transpose number=\"1\"><chromatic>0</chromatic><octave-change>-1</octave-change></transpose></attributes>"

// heardAs writes attacks as "onset:length tones" in whole notes.
func heardAs(p *heard.Part) []string {
	var all []string
	for _, a := range p.Attacks {
		all = append(all, fmt.Sprintf("%v:%v %s", a.Onset, a.Length, a.Names()))
	}
	return all
}

func readText(t *testing.T, text string) *heard.Score {
	t.Helper()
	score, err := Read(context.Background(), strings.NewReader(text))
	require.NoError(t, err)
	return score
}

// Every expectation below is counted by hand from the notes written above it.
func TestReadSounds(t *testing.T) {
	for _, c := range []struct {
		name string
		bars []string
		want []string
	}{
		{"plain", []string{eighths + noteOf("C4", 2) + noteOf("F#4", 4) + noteOf("Bb3", 2)},
			[]string{"0:1/4 C4", "1/4:1/2 F#4", "3/4:1/4 Bb3"}},
		{"a rest is no attack", []string{eighths + noteOf("C4", 2) + restOf(4) + noteOf("D4", 2)},
			[]string{"0:1/4 C4", "3/4:1/4 D4"}},
		{"a tie over the barline", []string{eighths + noteOf("C4", 6) + noteOf("D4", 2, ties), noteOf("D4", 2, tied) + noteOf("E4", 6)},
			[]string{"0:3/4 C4", "3/4:1/2 D4", "5/4:3/4 E4"}},
		{"a tie through a whole bar, told by tied alone", []string{
			eighths + noteOf("C4", 8, `<notations><tied type="start"/></notations>`),
			noteOf("C4", 8, `<notations><tied type="stop"/><tied type="start"/></notations>`),
			noteOf("C4", 1, `<notations><tied type="stop"/></notations>`) + noteOf("C4", 7)},
			[]string{"0:17/8 C4", "17/8:7/8 C4"}},
		{"a chord, lowest first", []string{eighths + noteOf("G4", 8) + strings.Replace(noteOf("C4", 8), "<note>", "<note><chord/>", 1)},
			[]string{"0:1 C4+G4"}},
		{"one tone of a chord is tied on", []string{
			eighths + noteOf("C4", 8, ties) + strings.Replace(noteOf("G4", 8), "<note>", "<note><chord/>", 1),
			noteOf("C4", 4, tied) + noteOf("G4", 4)},
			[]string{"0:3/2 C4", "0:1 G4", "3/2:1/2 G4"}},
		{"two voices", []string{eighths + noteOf("C5", 8, "<voice>1</voice>") + "<backup><duration>8</duration></backup>" + noteOf("C3", 4, "<voice>2</voice>") + noteOf("D3", 4, "<voice>2</voice>")},
			[]string{"0:1 C5", "0:1/2 C3", "1/2:1/2 D3"}},
		{"a forward is silence", []string{eighths + "<forward><duration>6</duration></forward>" + noteOf("C4", 2)},
			[]string{"3/4:1/4 C4"}},
		{"triplets in divisions of 3, then 5 in the same bar", []string{
			"<attributes><divisions>3</divisions></attributes>" + noteOf("C4", 1) + noteOf("D4", 2) + "<attributes><divisions>5</divisions></attributes>" + noteOf("E4", 4) + noteOf("F4", 1)},
			[]string{"0:1/12 C4", "1/12:1/6 D4", "1/4:1/5 E4", "9/20:1/20 F4"}},
		{"grace and cue notes are left out, the time of a cue passes", []string{
			eighths + "<note><grace/><pitch><step>B</step><octave>3</octave></pitch></note>" + noteOf("C4", 4) + strings.Replace(noteOf("A4", 2), "<note>", "<note><cue/>", 1) + noteOf("D4", 2)},
			[]string{"0:1/2 C4", "3/4:1/4 D4"}},
		{"a pickup", []string{"!0 " + eighths + noteOf("G4", 2), noteOf("C5", 8)},
			[]string{"0:1/4 G4", "1/4:1 C5"}},
		{"a clarinet in B flat: written D5 sounds C5", []string{
			"<attributes><divisions>2</divisions><transpose><diatonic>-1</diatonic><chromatic>-2</chromatic></transpose></attributes>" + noteOf("D5", 4) + noteOf("C4", 4)},
			[]string{"0:1/2 C5", "1/2:1/2 Bb3"}},
		{"a bass sounds an octave lower", []string{
			"<attributes><divisions>2</divisions><transpose><chromatic>0</chromatic><octave-change>-1</octave-change></transpose></attributes>" + noteOf("E3", 8)},
			[]string{"0:1 E2"}},
		{"an alto saxophone without diatonic steps: a major sixth down", []string{
			"<attributes><divisions>2</divisions><transpose><chromatic>-9</chromatic></transpose></attributes>" + noteOf("C5", 8)},
			[]string{"0:1 Eb4"}},
		{"tablature below the notes says nothing new, though it sounds as written", []string{
			guitarStaves + noteOf("E4", 4, "<voice>1</voice><staff>1</staff>") + noteOf("G4", 4, "<voice>1</voice><staff>1</staff>") + back +
				noteOf("E3", 4, "<voice>5</voice><staff>2</staff>") + noteOf("G3", 4, "<voice>5</voice><staff>2</staff>")},
			[]string{"0:1/2 E3", "1/2:1/2 G3"}},
		{"tablature alone is read, in a bar and in a part", []string{
			guitarStaves + noteOf("E4", 8, "<voice>1</voice><staff>1</staff>") + back + noteOf("E3", 8, "<voice>5</voice><staff>2</staff>"),
			"<note><rest/><duration>8</duration><voice>1</voice><staff>1</staff></note>" + back + noteOf("A2", 8, "<voice>5</voice><staff>2</staff>"),
			"<attributes><clef number=\"1\"><sign>TAB</sign></clef></attributes>" + noteOf("D3", 8)},
			[]string{"0:1 E3", "1:1 A2", "2:1 D2"}},
		{"decimal durations", []string{
			"<attributes><divisions>1</divisions></attributes>" + strings.Replace(noteOf("C4", 1), "<duration>1<", "<duration>1.5<", 1) + strings.Replace(noteOf("D4", 1), "<duration>1<", "<duration>0.50<", 1)},
			[]string{"0:3/8 C4", "3/8:1/8 D4"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			score := readText(t, partwise("Towpath", c.bars...))
			require.Len(t, score.Parts, 1)
			assert.Equal(t, c.want, heardAs(score.Parts[0]))
		})
	}
}

// A credit of the type "part name" is MusicXML 4.0's sign of one player's part.
func TestReadTellsAPartFromAScore(t *testing.T) {
	text := partwise("Barge", eighths+restOf(8))
	assert.False(t, readText(t, text).Extract)
	credit := func(kind string) string {
		return strings.Replace(text, "<part-list>", "<credit page=\"1\"><credit-type>"+kind+"</credit-type><credit-words>Barge</credit-words></credit><part-list>", 1)
	}
	assert.False(t, readText(t, credit("title")).Extract)
	assert.True(t, readText(t, credit("part name")).Extract)
}

// What a part's instrument is may be said by name, by standard sound, by MIDI
// program, from 1 in MusicXML, and by its clef.
func TestReadInstruments(t *testing.T) {
	text := partwise("Gate", strings.Replace(eighths, "</attributes>", "<clef><sign>C</sign><line>3</line></clef><clef><sign>F</sign><line>4</line></clef></attributes>", 1)+restOf(8))
	text = strings.Replace(text, "</part-name>", `</part-name><score-instrument id="I1"><instrument-name>Viola</instrument-name><instrument-sound>strings.viola</instrument-sound></score-instrument>
<score-instrument id="I2"><instrument-name>Tin</instrument-name></score-instrument>
<midi-instrument id="I1"><midi-program>42</midi-program></midi-instrument><midi-instrument id="I2"><midi-program>129</midi-program></midi-instrument>`, 1)
	part := readText(t, text).Parts[0]
	assert.Equal(t, []heard.Instrument{{Name: "Viola", Sound: "strings.viola", Program: 42}, {Name: "Tin"}}, part.Instruments)
	assert.Equal(t, "C3", part.Clef)
	drums := partwise("Gate", strings.Replace(eighths, "</attributes>", "<clef><sign>percussion</sign><line>2</line></clef></attributes>", 1)+restOf(8))
	assert.Equal(t, "percussion", readText(t, drums).Parts[0].Clef)
}

func TestReadOrderOfBars(t *testing.T) {
	forward := `<barline location="left"><repeat direction="forward"/></barline>`
	ending := func(numbers, kind, repeat string) string {
		where := map[string]string{"start": "left"}[kind]
		if where == "" {
			where = "right"
		}
		return `<barline location="` + where + `"><ending number="` + numbers + `" type="` + kind + `"/>` + repeat + `</barline>`
	}
	back := `<repeat direction="backward"/>`
	w := func(p string) string { return noteOf(p, 8) }
	for _, c := range []struct {
		name string
		bars []string
		want string
	}{
		{"a repeat from the start", []string{eighths + w("C4"), w("D4") + again, w("E4")}, "C D C D E"},
		{"a repeat with a beginning", []string{eighths + w("C4"), forward + w("D4") + again, w("E4")}, "C D D E"},
		{"three times", []string{eighths + w("C4") + `<barline><repeat direction="backward" times="3"/></barline>`, w("D4")}, "C C C D"},
		{"two endings", []string{eighths + w("C4"), ending("1", "start", "") + w("D4") + ending("1", "stop", back), ending("2", "start", "") + w("E4") + ending("2", "discontinue", ""), w("F4") + again}, "C D C E F F"},
		{"1, 2 and 3", []string{eighths + w("C4"), ending("1,2", "start", "") + w("D4") + ending("1,2", "stop", back), ending("3", "start", "") + w("E4") + ending("3", "stop", "")}, "C D C D C E"},
		{"da capo al fine", []string{eighths + w("C4"), w("D4") + `<sound fine="yes"/>`, w("E4") + `<sound dacapo="yes"/>`}, "C D E C D"},
		{"dal segno al coda", []string{eighths + w("C4"), `<sound segno="s"/>` + w("D4") + `<sound tocoda="c"/>`, w("E4") + `<sound dalsegno="s"/>`, `<sound coda="c"/>` + w("F4")}, "C D E D F"},
	} {
		t.Run(c.name, func(t *testing.T) {
			score := readText(t, partwise("Towpath", c.bars...))
			var got []string
			for _, a := range score.Parts[0].Attacks {
				got = append(got, string(a.Tones[0].Step))
			}
			assert.Equal(t, c.want, strings.Join(got, " "))
			assert.Empty(t, score.Remarks)
		})
	}
}

func TestReadRemarks(t *testing.T) {
	for _, c := range []struct {
		name string
		bars []string
		want []string
	}{
		{"too little", []string{eighths + noteOf("C4", 7), noteOf("D4", 8)}, []string{"bar 1 holds 7/8, it should be 1"}},
		{"too much", []string{eighths + noteOf("C4", 8) + noteOf("D4", 1)}, []string{"bar 1 holds 9/8, it should be 1"}},
		{"one voice", []string{eighths + noteOf("C4", 8) + "<backup><duration>8</duration></backup>" + noteOf("D3", 2, "<voice>2</voice>")}, []string{"voice 2 holds 1/4 of bar 1, which lasts 1; silence is taken to follow"}},
		{"grace", []string{eighths + "<note><grace/><pitch><step>B</step><octave>3</octave></pitch></note>" + noteOf("C4", 8)}, []string{"1 grace note left out in bar 1"}},
		{"tablature repeats grace notes, and hides what is tied in", []string{
			guitarStaves + "<note><grace/><pitch><step>B</step><octave>3</octave></pitch><staff>1</staff></note>" + noteOf("C4", 8, "<staff>1</staff>") + back +
				"<note><grace/><pitch><step>B</step><octave>2</octave></pitch><staff>2</staff></note>" +
				strings.Replace(noteOf("C3", 8, "<staff>2</staff>"), "<note", `<note print-object="no"`, 1)}, []string{"1 grace note left out in bar 1"}},
		{"hidden", []string{eighths + strings.Replace(noteOf("C4", 8), "<note", `<note print-object="no"`, 1)}, []string{"1 hidden note in bar 1 sounding though not printed"}},
		{"ties", []string{eighths + noteOf("C4", 8, ties), noteOf("D4", 8, tied)}, []string{"bar 2: a tie ends on D4 but begins nowhere", "a tie begins on C4 of bar 1 but ends nowhere"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			score := readText(t, partwise("Towpath", c.bars...))
			var got []string
			for _, r := range score.Remarks {
				got = append(got, r.Text)
			}
			assert.Equal(t, c.want, got)
		})
	}
}

// A bar that is too long must not move those after it; of two that begin
// together the longer comes first.
func TestReadKeepsTheGridOfBars(t *testing.T) {
	score := readText(t, partwise("Towpath", eighths+noteOf("C4", 8)+noteOf("D4", 1), noteOf("E4", 8)))
	assert.Equal(t, []string{"0:1 C4", "1:1 E4", "1:1/8 D4"}, heardAs(score.Parts[0]))
}

func TestReadTimewiseIsReadAsPartwise(t *testing.T) {
	text := `<score-timewise><part-list><score-part id="A"><part-name>Lock</part-name></score-part><score-part id="B"><part-name>Barge</part-name></score-part></part-list>` +
		`<measure number="1"><part id="A">` + eighths + noteOf("C4", 8) + `</part><part id="B">` + eighths + noteOf("C3", 8, ties) + `</part></measure>` +
		`<measure number="2"><part id="A">` + noteOf("D4", 8) + `</part><part id="B">` + noteOf("C3", 8, tied) + `</part></measure></score-timewise>`
	score := readText(t, text)
	require.Len(t, score.Parts, 2)
	assert.Equal(t, []string{"0:1 C4", "1:1 D4"}, heardAs(score.Parts[0]))
	assert.Equal(t, []string{"0:2 C3"}, heardAs(score.Parts[1]))
	assert.Equal(t, "Barge", score.Parts[1].Name)
}

// A first bar that is not counted is the end of one: a quarter of 4/4 is its beat 4. An
// implicit bar later on begins with beat 1.
func TestWhereInAPickup(t *testing.T) {
	s, err := Read(context.Background(), strings.NewReader(partwise("Gate", "!0 "+eighths+noteOf("C4", 2), noteOf("D4", 8), "!X1 "+noteOf("E4", 2))))
	require.NoError(t, err)
	p := s.Parts[0]
	assert.Equal(t, []string{"0:1/4 C4", "1/4:1 D4", "5/4:1/4 E4"}, heardAs(p))
	var where []string
	for _, a := range p.Attacks {
		where = append(where, p.Where(a.Onset).String())
	}
	assert.Equal(t, []string{"bar 0 beat 4", "bar 2 beat 1", "bar X1 beat 1"}, where)
	assert.Empty(t, s.Remarks)
}
