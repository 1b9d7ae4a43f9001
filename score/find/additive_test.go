package find

import (
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/score/beat"
	"tieover/score/find/align"
	"tieover/score/heard"
)

// lettered is eighths of the tones that letters name, in octave 4.
func lettered(t testing.TB, text string) *List {
	t.Helper()
	text = strings.ReplaceAll(text, " ", "")
	items := make([]Item, len(text))
	for i := range items {
		items[i].Size = 1
	}
	l, err := FromDurations(items, beat.Plain(beat.Of(1, 8)))
	require.NoError(t, err)
	chords := make([][]heard.Tone, len(text))
	for i := range text {
		chords[i] = []heard.Tone{{Step: text[i], Octave: 4}}
	}
	l.sound(chords)
	return l
}

// 1, 12, 123 … by hand, and what is written for them sounds so.
func TestAdditiveMelodies(t *testing.T) {
	for _, c := range []struct{ melody, want, series string }{
		{"C CD CDE CDEF", "1 (1 pulse), 4 times, one more group of 1 at the end each time", "C4 D4 E4 F4"},
		{"C CD CDE CDEF CDEFG CDEFGA", "1 (1 pulse), 6 times, one more group of 1 at the end each time", "C4 D4 E4 F4 G4 A4"},
		{"C C CD CD CDE CDE CDEF CDEF CDEFG CDEFG", "1 (1 pulse), 10 times, one more group of 1 at the end after each 2 times", "C4 D4 E4 F4 G4"},
		{"EGC EGCD EGCDA EGCDAF", "1+1+1 (3 pulses), 4 times, one more group of 1 at the end each time", "E4 G4 C4 D4 A4 F4"},
	} {
		l := lettered(t, c.melody)
		var told *Description
		for _, d := range Search(l, Options{}) {
			if d.additive {
				told = d
			}
		}
		require.NotNil(t, told, c.melody)
		assert.Equal(t, c.want, told.String())
		text, err := Plan{Title: "Lock"}.Spec([]Found{{Name: "Lock", Instrument: "piano", List: l, Ranked: []*Description{told}}})
		require.NoError(t, err)
		assert.Contains(t, text, "    process: {append: {size: 1")
		assert.Contains(t, text, "    pitches: "+c.series+"\n")
		again, _ := attacksOf(t, text)
		require.Len(t, again, len(l.Hits), text)
		for i, h := range l.Hits {
			assert.Equal(t, beat.Of(h.At, 8), again[i].Onset, text)
			assert.Equal(t, chordText(l.Chords[h.Chord]), again[i].Names(), text)
		}
	}
}

// Melodies made by chance hardly ever save more than 4 bits so, and one that only
// repeats is not additive.
func TestMelodiesByChanceAreNotAdditive(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 9))
	invented := 0
	for range 1000 {
		letters := make([]byte, 10+r.IntN(40))
		tones := 2 + r.IntN(6)
		for i := range letters {
			letters[i] = "CDEFGAB"[r.IntN(tones)]
		}
		for _, d := range Search(lettered(t, string(letters)), Options{Tolerance: align.None}) {
			if d.additive && d.Saved > leastBits {
				invented++
			}
		}
	}
	assert.LessOrEqual(t, invented, 3, "of 1,000: as many as of lists of values")
	repeated := lettered(t, "CDE CDE CDE CDE")
	assert.Empty(t, newLineOf(repeated).additive(repeated))
}

func newLineOf(l *List) *line { return newLine(l, l.Items(), Hold, 0) }
