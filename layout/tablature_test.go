package layout

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/layout/sheet"
)

// barTexts writes the voices of each bar of a part.
func barTexts(p *sheet.Part) (all []string) {
	for b := range p.Bars() {
		text := ""
		for i := range b.Measure.Voices {
			if i > 0 {
				text += " | "
			}
			text += sheet.VoiceText(&b.Measure.Voices[i], true)
		}
		all = append(all, text)
	}
	return all
}

// A guitar's part has a staff of strings below; each head, an octave above what it
// sounds, says where it is stopped. The score has none, nor a part that does not ask.
func TestTablature(t *testing.T) {
	const text = `title: Weir
meter: 4/4
length: 2 bars
layers:
  - {name: Guitar, instrument: guitar, tab: yes, groups: 3+3+2, pitches: E3 B3 G3}
  - {name: Bass, instrument: bass guitar, groups: 5+3, pitches: E2}
`
	guitar := single(t, Options{}, 0, text).Parts[0]
	require.Len(t, guitar.Staves, 2)
	assert.Equal(t, "[E2 A2 D3 G3 B3 E4]", fmt.Sprint(guitar.Staves[1].Tuning))
	assert.Equal(t, 6, guitar.Staves[1].Lines)
	assert.True(t, guitar.Tablature())
	assert.Equal(t, []string{"q.:E4[4/2] q.:B4[2/0] q:G4[3/0]", "q.:E4[4/2] q.:B4[2/0] q:G4[3/0]"}, barTexts(&guitar))
	bass := single(t, Options{}, 1, text).Parts[0]
	assert.False(t, bass.Tablature())
	whole := laid(t, Options{}, text).Parts[0]
	assert.False(t, whole.Tablature())
	assert.Equal(t, []string{"q.:E4 q.:B4 q:G4", "q.:E4 q.:B4 q:G4"}, barTexts(&whole))
}

// tabbed lays the part of one guitar layer on strings tuned as they usually are.
func tabbed(t *testing.T, bars int, more string) []string {
	text := fmt.Sprintf("title: Weir\nmeter: 4/4\nlength: %d bars\nlayers:\n  - {name: Guitar, instrument: guitar, tab: yes, %s}\n", bars, more)
	return barTexts(&single(t, Options{}, 0, text).Parts[0])
}

// A fingering belongs to its place in the series, wherever a process moves it, and a
// chord that comes twice may be held in two ways. An exception's own pitches are a series
// of their own.
func TestFingeringsTravel(t *testing.T) {
	assert.Equal(t, []string{
		"q.:E4[4/2] q.:B4[2/0] q:G4[3/0]",
		"q.:B4[2/0] q:G4[3/0] q.:E4[4/2]",
	}, tabbed(t, 2, "groups: 3+3+2, pitches: E3 B3 G3, process: {rotate: {by: 1}}"))
	// The line goes up once: A4 at 2/10, then 1/8 … with the hand at 7, 7, 7, 9, 12.
	assert.Equal(t, []string{
		"q:A5[2/10] q:C6[1/8] q:D6[1/10] q:E6[1/12]", "h:G6[1/15] rh",
	}, tabbed(t, 2, "line: 'A4 1/4, C5 1/4, D5 1/4, E5 1/4, G5 1/2, rest 1/2'"))
	assert.Equal(t, []string{
		"h:A5[3/14] h:G6[1/15]", "h:A5[1/5] h:A5[1/5]",
	}, tabbed(t, 2, "groups: 4+4, pitches: A4 G5, except: [{cycle: 2, pitches: A4}]"))
}

// Grace notes are stopped in the position of their note; those of a flam as the note.
// Of tied pieces each has the place of the sound; slashes have none.
func TestFingeringsOfOtherNotes(t *testing.T) {
	assert.Equal(t, []string{"A4[3/2]/h:B4[3/4] h:E4[4/2]"}, tabbed(t, 1, "groups: 4+4, pitches: A3/B3 E3"))
	assert.Equal(t, []string{"E4[4/2]/h:E4[4/2]'256 h:G4[3/0]"}, tabbed(t, 1, "groups: 4+4, pitches: E3 G3, touches: flam plain"))
	assert.Equal(t, []string{"h:E4[4/2]~e:E4[4/2] q.:G4[3/0]"}, tabbed(t, 1, "groups: 5+3, pitches: E3 G3"))
	assert.Equal(t, []string{"slashes: q:x0 q:x0 q:x0 q:x0"}, tabbed(t, 1, "groups: 4+4, pitches: E3 G3, written: slashes"))
	assert.Equal(t, []string{"rhythm: h:x0 h:x0"}, tabbed(t, 1, "groups: 4+4, pitches: E3 G3, written: rhythm"))
}

// Signs for equal bars stand on both staves, and are counted once.
func TestTablatureRepeats(t *testing.T) {
	p := single(t, Options{Breaks: BreakNone}, 0, `title: Weir
meter: 4/4
length: 5 bars
layers: [{name: Guitar, instrument: guitar, tab: yes, groups: 4+4, pitches: E3 G3, written: repeats}]
`).Parts[0]
	var above, below []int
	for b := range p.Bars() {
		above, below = append(above, p.RepeatsIn(b, 1)), append(below, p.RepeatsIn(b, 2))
	}
	assert.Equal(t, []int{0, 2, 3, 4, 5}, above)
	assert.Equal(t, above, below)
	assert.Len(t, marksOf(&p, sheet.RepeatCount), 1)
}

// Two layers of a guitarist stand on one staff of strings, tuned as one of them says, in
// all sections. What one hand cannot hold together is told with the first bar: Bass has
// D3 at eighths 0, 10, 20 …, Melody E3 at 4, 12, 20 …, both on string 4.
func TestTwoLayersOnOneGuitar(t *testing.T) {
	const text = `title: Weir
section: %s
meter: 4/4
length: 4 bars
layers:
  - {name: Bass, player: Reed, instrument: guitar, groups: 5+5, pitches: %s%s}
  - {name: Melody, player: Reed, instrument: guitar, groups: 8, offset: 4, pitches: %s}
`
	one := fmt.Sprintf(text, "A", "E2 A2", ", tab: yes", "E4")
	two := fmt.Sprintf(text, "B", "E2 A2", "", "G4")
	assert.Equal(t, []string{
		"h:E3[6/0]~e:E3[6/0] q.:A3[5/0] | rh h:E5[1/0]",
	}, barTexts(&single(t, Options{}, 0, one, two).Parts[0])[:1])
	for _, c := range []struct{ bass, melody, want string }{
		{"D3 A2", "E3", `bar 3 beat 3: what Bass and Melody strike together, D3 and E3, is on string 4 twice`},
		{"F2 A2", "E5", `bar 3 beat 3: what Bass and Melody strike together, F2 and E5, is at frets 1 and 12, too far for one hand`},
	} {
		_, problems := LayPart(read(t, fmt.Sprintf(text, "A", c.bass, ", tab: yes, strike: short", c.melody+", strike: short")), Options{}, 0)
		require.Len(t, problems, 1)
		assert.Equal(t, c.want, problems[0].Text)
		assert.Equal(t, "change an octave, give them two players, or remove tab", problems[0].Hint)
	}
}

// A string that one layer still holds is not there for another to strike elsewhere. Bass
// holds string 4 from 0 to 5 at D3, open, and Melody strikes E3 there at 4; from 0 to 8
// Melody holds E3, and Bass strikes D3 at 5; from 5 to 10, over the barline, Bass holds
// D3, and Melody strikes E3 at 8. What is struck at the fret that is held, or where the
// sound ends, is no clash.
func TestAStringIsStillHeld(t *testing.T) {
	const text = `title: Weir
meter: 4/4
length: 2 bars
layers:
  - {name: Bass, player: Reed, instrument: guitar, tab: yes, groups: %s, pitches: %s}
  - {name: Melody, player: Reed, instrument: guitar, groups: 8, pitches: %s}
`
	for _, c := range []struct{ groups, bass, melody, want string }{
		{"5+5", "D3 A2", "E3, offset: 4", "bar 1 beat 3: Melody strikes E3 on string 4, where Bass still holds D3"},
		{"5+5", "A2 D3", "E3", "bar 1 beat 3½: Bass strikes D3 on string 4, where Melody still holds E3"},
		{"5+5", "A2 D3", "E3, enters: bar 2", "bar 2 beat 1: Melody strikes E3 on string 4, where Bass still holds D3"},
		{"5+5", "A2 D3", "D3, enters: bar 2", ""},
		{"4+4", "D3 A2", "E3, offset: 4, strike: short", ""},
	} {
		_, problems := LayPart(read(t, fmt.Sprintf(text, c.groups, c.bass, c.melody)), Options{}, 0)
		if c.want == "" {
			assert.Empty(t, problems)
			continue
		}
		require.Len(t, problems, 1, c.want)
		assert.Equal(t, c.want, problems[0].Text)
		assert.Equal(t, "shorten it with strike: short, change an octave, give them two players, or remove tab", problems[0].Hint)
	}
}

// What two layers strike on one string at one fret is one stroke: E4 of both on the open
// string 1, at eighths 0 and 4. So is A3 of A in the chord of B: alone it is on string 3
// at 2, and in the chord, for C4 is then on string 2 at 1 and E4 on the open string 1.
func TestTwoLayersStrikeOneTone(t *testing.T) {
	const text = `title: Weir
meter: 4/4
length: 1 bar
layers:
  - {name: A, player: Reed, instrument: guitar, groups: 2x4, pitches: %s, tab: yes}
  - {name: B, player: Reed, instrument: guitar, groups: 4+4, pitches: %s}
`
	assert.Equal(t, []string{
		"q:E5[1/0] q:E5[1/0] q:E5[1/0] q:E5[1/0] | h:E5[1/0] h:E5[1/0]",
	}, barTexts(&single(t, Options{}, 0, fmt.Sprintf(text, "E4", "E4")).Parts[0]))
	assert.Equal(t, []string{
		"q:A4[3/2] q:A4[3/2] q:A4[3/2] q:A4[3/2] | h:A4[3/2]+C5[2/1]+E5[1/0] h:A4[3/2]+C5[2/1]+E5[1/0]",
	}, barTexts(&single(t, Options{}, 0, fmt.Sprintf(text, "A3", "A3+C4+E4")).Parts[0]))
}
