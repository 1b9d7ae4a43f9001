package musicxml

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/score/beat"
	"tieover/score/heard"
)

// Every moment and length is counted by hand from the elements, in eighths of 4/4.
func TestReadClock(t *testing.T) {
	chord := func(note string) string { return strings.Replace(note, "<note>", "<note><chord/>", 1) }
	for name, c := range map[string]struct {
		bars []string
		want []string
	}{
		"a chord after a forward begins with its first note": {
			[]string{eighths + noteOf("C4", 2) + "<forward><duration>2</duration></forward>" + noteOf("D4", 4) + chord(noteOf("F4", 4))},
			[]string{"0:1/4 C4", "1/2:1/2 D4+F4"}},
		"a short chord note does not hold the clock": {
			[]string{eighths + noteOf("C4", 6) + chord(noteOf("E4", 2)) + noteOf("D4", 2)},
			[]string{"0:3/4 C4", "0:1/4 E4", "3/4:1/4 D4"}},
		"backup and forward in a finer grid": {
			[]string{"<attributes><divisions>6</divisions></attributes>" + noteOf("C4", 4) + noteOf("D4", 4) + noteOf("E4", 4) +
				"<backup><duration>9</duration></backup>" + noteOf("C3", 3, "<voice>2</voice>") + "<forward><duration>3</duration></forward>" + noteOf("D3", 3, "<voice>2</voice>")},
			[]string{"0:1/6 C4", "1/8:1/8 C3", "1/6:1/6 D4", "1/3:1/6 E4", "3/8:1/8 D3"}},
		"a backup past the barline stops there": {
			[]string{eighths + noteOf("C4", 8) + "<backup><duration>10</duration></backup>" + noteOf("E3", 8, "<voice>2</voice>")},
			[]string{"0:1 C4", "0:1 E3"}},
		"a tie joins across a change of divisions": {
			[]string{eighths + noteOf("C4", 6) + noteOf("D4", 2, ties), "<attributes><divisions>3</divisions></attributes>" + noteOf("D4", 1, tied) + noteOf("E4", 11)},
			[]string{"0:3/4 C4", "3/4:1/3 D4", "13/12:11/12 E4"}},
		"a tie to the same key in another spelling": {
			[]string{eighths + noteOf("C#4", 8, ties), noteOf("Db4", 8, tied)},
			[]string{"0:2 C#4"}},
		"of two sounds that wait, a tie goes on from its own voice": {
			[]string{eighths + noteOf("C4", 4, "<voice>1</voice>") + noteOf("G4", 4, ties, "<voice>1</voice>") + back + noteOf("G4", 8, ties, "<voice>2</voice>"),
				noteOf("G4", 2, tied, "<voice>2</voice>") + noteOf("F4", 6, "<voice>2</voice>") + back + noteOf("G4", 8, tied, "<voice>1</voice>")},
			[]string{"0:1/2 C4", "0:5/4 G4", "1/2:3/2 G4", "5/4:3/4 F4"}},
		"a new transposition for all staves ends the old one": {
			[]string{eighths + "<attributes><transpose number=\"1\"><chromatic>-12</chromatic></transpose></attributes>" + noteOf("C4", 4) +
				"<attributes><transpose><diatonic>1</diatonic><chromatic>2</chromatic></transpose></attributes>" + noteOf("C4", 4)},
			[]string{"0:1/2 C3", "1/2:1/2 D4"}},
		"letters that contradict the semitones: the sound counts": {
			[]string{eighths + "<attributes><transpose><diatonic>0</diatonic><chromatic>7</chromatic></transpose></attributes>" + noteOf("C4", 8)},
			[]string{"0:1 key 67"}},
		"a quarter tone is kept by its name": {
			[]string{eighths + strings.Replace(noteOf("C4", 8), "<octave>", "<alter>0.5</alter><octave>", 1)},
			[]string{"0:1 C4 altered by 0.5"}},
		"without a meter a bar lasts as long as what is in it": {
			[]string{"<attributes><divisions>2</divisions><time><senza-misura/></time></attributes>" + noteOf("C4", 3), noteOf("D4", 5), noteOf("E4", 1)},
			[]string{"0:3/8 C4", "3/8:5/8 D4", "1:1/8 E4"}},
		"a bar that a repeat splits is two halves": {
			[]string{eighths + noteOf("C4", 2) + again, noteOf("D4", 6)},
			[]string{"0:1/4 C4", "1/4:1/4 C4", "1/2:3/4 D4"}},
		"beats of two terms": {
			[]string{"<attributes><divisions>2</divisions><time><beats>2</beats><beat-type>4</beat-type><beats>3</beats><beat-type>8</beat-type></time></attributes>" + noteOf("C4", 7), noteOf("D4", 7)},
			[]string{"0:7/8 C4", "7/8:7/8 D4"}},
	} {
		score := readText(t, partwise("Towpath", c.bars...))
		assert.Equal(t, c.want, heardAs(score.Parts[0]), name)
	}
}

// On the way back from a jump only the last ending is played and no repeat is taken; an ending
// played for the last time is followed by what comes after all endings.
func TestReadOrderOfEndingsAfterJumps(t *testing.T) {
	w := func(p string) string { return noteOf(p, 8) }
	first, second := `<barline location="left"><ending number="1" type="start"/></barline>`, `<barline location="left"><ending number="2" type="start"/></barline>`
	firstEnds := `<barline location="right"><ending number="1" type="stop"/><repeat direction="backward"/></barline>`
	secondEnds := `<barline location="right"><ending number="2" type="stop"/></barline>`
	capo, fine := `<sound dacapo="yes"/>`, `<sound fine="yes"/>`
	for name, c := range map[string]struct {
		bars []string
		want string
	}{
		"da capo into the last ending":       {[]string{eighths + w("C4"), first + w("D4") + firstEnds, second + w("E4") + fine + secondEnds, w("F4") + capo}, "C D C E F C E"},
		"both endings go back":               {[]string{eighths + w("C4"), first + w("D4") + firstEnds, second + w("E4") + strings.Replace(firstEnds, `"1"`, `"2"`, 1), w("F4")}, "C D C E F"},
		"a repeat inside is not taken again": {[]string{eighths + w("C4") + fine, w("D4") + again, w("E4") + capo}, "C D C D E C"},
		"an ending for another time only":    {[]string{eighths + w("C4"), first + w("D4") + firstEnds, w("E4")}, "C D C E"},
	} {
		var got []string
		for _, a := range readText(t, partwise("Towpath", c.bars...)).Parts[0].Attacks {
			got = append(got, string(a.Tones[0].Step))
		}
		assert.Equal(t, c.want, strings.Join(got, " "), name)
	}
}

// The times through count for each bar by itself.
func TestReadPasses(t *testing.T) {
	p := readText(t, partwise("Towpath", eighths+noteOf("C4", 8)+again, noteOf("D4", 8))).Parts[0]
	var bars []string
	for _, b := range p.Bars {
		bars = append(bars, b.Number+":"+string(rune('0'+b.Pass)))
	}
	assert.Equal(t, []string{"1:1", "1:2", "2:1"}, bars)
	assert.Equal(t, "bar 1 (time 2) beat 1", p.Where(p.Bars[1].Start).String())
}

// What cannot be told from the notes is said once, with its bar.
func TestReadRemarksOnBars(t *testing.T) {
	rests := strings.Replace(eighths, "</attributes>", "<measure-style><multiple-rest>3</multiple-rest></measure-style></attributes>", 1)
	second := `<direction><direction-type><words>in the meter of the section</words></direction-type></direction>`
	final := `<barline><bar-style>light-heavy</bar-style></barline>`
	for name, c := range map[string]struct {
		bars []string
		want []string
	}{
		"notes in a multi-bar rest": {[]string{rests + restOf(8), noteOf("C4", 8), noteOf("D4", 8)}, []string{"bar 2 has notes inside a multi-bar rest"}},
		"notes after it":            {[]string{rests + restOf(8), restOf(8), restOf(8), noteOf("D4", 8)}, nil},
		"a backup too long":         {[]string{eighths + noteOf("C4", 8) + "<backup><duration>9</duration></backup>" + noteOf("E3", 8)}, []string{"bar 1: a backup goes back past the barline"}},
		"notes of no length":        {[]string{eighths + noteOf("C4", 8) + noteOf("D4", 0)}, []string{"1 zero-length note left out in bar 1"}},
		"octaves doubled":           {[]string{eighths + "<attributes><transpose><chromatic>0</chromatic><double/></transpose></attributes>" + noteOf("C4", 8)}, []string{"the doubling in octaves from bar 1 on is left out"}},
		"the music twice":           {[]string{eighths + second + noteOf("C4", 8) + final, second + noteOf("C4", 8)}, []string{"the same music once more, in other bars, left out from bar 2 on"}},
		"a heading, but no end":     {[]string{eighths + second + noteOf("C4", 8), second + noteOf("C4", 8)}, nil},
	} {
		var got []string
		for _, r := range readText(t, partwise("Towpath", c.bars...)).Remarks {
			got = append(got, r.Text)
		}
		assert.Equal(t, c.want, got, name)
	}
}

// A tempo that is played counts before the mark for the eye; a dot makes the unit half as much
// again: dotted quarter = 60 is 90 quarters a minute.
func TestReadTempos(t *testing.T) {
	mark := func(dot, sound string) string {
		return "<direction><direction-type><metronome><beat-unit>quarter</beat-unit>" + dot + "<per-minute>60</per-minute></metronome></direction-type>" + sound + "</direction>"
	}
	p := readText(t, partwise("Towpath", eighths+mark("<beat-unit-dot/>", "")+noteOf("C4", 4)+mark("", `<sound tempo="66.66666"/>`)+noteOf("D4", 4),
		`<direction><direction-type><words>slower</words></direction-type><offset>-2</offset><sound tempo="50"/></direction>`+
			strings.Replace(mark("", ""), "</direction>", "<offset>4</offset></direction>", 1)+noteOf("E4", 8))).Parts[0]
	var got []string
	for _, tempo := range p.Tempos {
		got = append(got, fmt.Sprintf("%v %v of %v", tempo.At, tempo.Quarters, tempo.Beat))
	}
	both := readText(t, partwise("Towpath", eighths+mark("<beat-unit-dot/>", `<sound tempo="90"/>`)+noteOf("C4", 8))).Parts[0]
	assert.Equal(t, []heard.Tempo{{Quarters: beat.Of(90, 1), Beat: beat.Of(3, 8)}}, both.Tempos)
	assert.Equal(t, []string{"0 90 of 3/8", "1/2 333333/5000 of 0", "1 50 of 0", "3/2 60 of 1/4"}, got, "an offset does not leave the bar; four decimals count")
}
