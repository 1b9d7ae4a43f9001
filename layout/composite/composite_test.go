package composite_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/layout/composite"
	"tieover/score"
	"tieover/score/instrument"
	"tieover/score/spec"
)

func section(t *testing.T, head string, layers ...string) *score.Section {
	t.Helper()
	text := "title: Weir\nmeter: 4/4\n" + head + "\nlayers:\n"
	for i, l := range layers {
		text += fmt.Sprintf("  - {name: L%d, %s}\n", i, l)
	}
	p, problems := spec.Read([]spec.File{{Name: "weir.yaml", Text: []byte(text)}})
	require.NoError(t, problems.Err())
	return p.Sections[0]
}

func named(t *testing.T, name string) *instrument.Instrument {
	t.Helper()
	i, ok := instrument.Find(name)
	require.True(t, ok)
	return i
}

// struck writes each attack: when, in eighths, how long, what, and > for an accent.
func struck(s *score.Section, ins *instrument.Instrument, layers ...int) string {
	var all []string
	r := composite.NewReader(s, layers, ins)
	for c, ok := r.Next(); ok; c, ok = r.Next() {
		a := &c.Attacks[0]
		text := fmt.Sprintf("%v:%v %v", s.Grid.Span(c.Start).Times(8), s.Grid.Span(a.Length).Times(8), a.Tones)
		if a.Accent {
			text += ">"
		}
		all = append(all, text)
	}
	return strings.Join(all, ", ")
}

// 3+3+2 eighths are struck at 0 3 6, 4+4 at 0 4: together at 0 3 4 6, each until the next.
func TestReader(t *testing.T) {
	s := section(t, "length: 1 bar", "instrument: marimba, groups: 3+3+2, pitches: G4 B4 G4", "instrument: marimba, groups: 4+4, pitches: C4+G4 E4", "instrument: marimba, groups: 8, pitches: A3")
	assert.Equal(t, "0:3 C4+G4, 3:1 B4, 4:2 E4, 6:2 G4", struck(s, named(t, "marimba"), 0, 1), "one G4 for both")
	assert.Equal(t, "0:4 C4+G4, 4:4 E4", struck(s, named(t, "marimba"), 1))

	s = section(t, "length: 1 bar", "groups: 3+rest 5", "groups: 3+5, accent: group", "groups: 8")
	assert.Equal(t, "0:8 x", struck(s, instrument.Rhythm, 0), "a rest is no attack, and no end")
	assert.Equal(t, "0:3 x>, 3:5 x>", struck(s, instrument.Rhythm, 0, 1, 2), "one accent is all's")
}

// Drums write sounds of their own only, and pitches none.
func TestReaderWritesWhatTheInstrumentHas(t *testing.T) {
	s := section(t, "length: 1 bar", "instrument: drum set, groups: 8, pitches: snare", "instrument: bongos, groups: 8, pitches: low", "instrument: marimba, groups: 8, pitches: C4")
	assert.Equal(t, "0:8 C4", struck(s, named(t, "marimba"), 0, 1, 2))
	bongos := named(t, "bongos")
	low, ok := bongos.Drum("low")
	require.True(t, ok)
	c, _ := composite.NewReader(s, []int{0, 1, 2}, bongos).Next()
	assert.Equal(t, score.Chord{{Drum: uint8(low)}}, c.Attacks[0].Tones)
}

// What lands after the section lasts as long as the longest.
func TestReaderLands(t *testing.T) {
	s := section(t, "length: 1 bar\nend: land", "groups: 4+4", "groups: 2+6")
	assert.Equal(t, "0:2 x, 2:2 x, 4:4 x, 8:4 x", struck(s, instrument.Rhythm, 0, 1))
}

// A marimba player has four mallets that reach three octaves; as the table has it.
func TestUnplayable(t *testing.T) {
	marimba := named(t, "marimba")
	require.Equal(t, []int{4, 36}, []int{marimba.Most, marimba.Reach})
	s := section(t, "tempo: 132\nlength: 1 bar", "instrument: marimba, groups: 4+4, pitches: C3+E3+G3 C4", "instrument: marimba, groups: 4+4, pitches: C6+E6+G6 D4")
	var texts []string
	for _, p := range composite.Unplayable(s, []int{0, 1}, marimba) {
		assert.Equal(t, s.Pos, p.Pos)
		texts = append(texts, p.Text)
	}
	assert.Equal(t, []string{
		"bar 1 beat 1: 6 notes at once (C3+E3+G3+C6+E6+G6), a player of the marimba has 4",
		"bar 1 beat 1: a span of 43 semitones (C3+E3+G3+C6+E6+G6), the marimba reaches 36",
	}, texts, "C4 and D4 together are easy")
}

// Twenty places of one kind are listed, and how many more there are.
func TestUnplayableListsTwenty(t *testing.T) {
	s := section(t, "length: 25 bars", "instrument: marimba, groups: 8, pitches: C3+D3+E3+F3+G3")
	problems := composite.Unplayable(s, []int{0}, named(t, "marimba"))
	require.Len(t, problems, 21)
	assert.Equal(t, "bar 20 beat 1: 5 notes at once (C3+D3+E3+F3+G3), a player of the marimba has 4", problems[19].Text)
	assert.Equal(t, "5 more places with too many notes at once", problems[20].Text)
}

// A flute sounds C4 to C7 and repeats a tone after 70 ms, as the table has it: B3 is too
// low, and a sixteenth of 240 quarters a minute, 62.5 ms, too short. At 200 it is 75 ms.
func TestUnplayableRangeAndRepeats(t *testing.T) {
	flute := named(t, "flute")
	require.Equal(t, []int{60, 96, 70}, []int{flute.Low, flute.High, flute.RepeatMS})
	for tempo, want := range map[int][]string{
		240: {"bar 1 beat 2 +1/16: B3 is out of the range of the flute", "bar 1 beat 1 +1/16: C5 again after less than 70 ms"},
		200: {"bar 1 beat 2 +1/16: B3 is out of the range of the flute"},
	} {
		s := section(t, fmt.Sprintf("pulse: 1/16\ntempo: %d\nlength: 6 pulses", tempo), "instrument: marimba, groups: 1+1+3+1, pitches: C5 C5 D5 B3")
		var texts []string
		for _, p := range composite.Unplayable(s, []int{0}, flute) {
			texts = append(texts, p.Text)
		}
		assert.ElementsMatch(t, want, texts, tempo)
	}
}
