package find

import (
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tieover/score/beat"
	"tieover/score/find/align"
	"tieover/score/heard"
	"tieover/score/process"
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
		told, text := additiveOf(t, lettered(t, c.melody))
		require.NotNil(t, told, c.melody)
		assert.Equal(t, c.want, told.String())
		assert.Contains(t, text, "    process: {append: {size: 1")
		assert.Contains(t, text, "    pitches: "+c.series+"\n")
	}
}

// additiveOf returns the additive melody that is found, nil if none is, and the spec of
// it, which sounds the list.
func additiveOf(t require.TestingT, l *List) (told *Description, text string) {
	for _, d := range Search(l, Options{}) {
		if d.additive && told == nil {
			told = d
		}
	}
	if told == nil {
		return nil, ""
	}
	return told, soundsLike(t, l, []*Description{told}, "piano")
}

// Melodies that take on several tones, or in front, or lose tones, by hand; the
// cycles are written one by one.
func TestMelodiesThatShrinkOrTakeFromTheFront(t *testing.T) {
	for _, c := range []struct{ melody, want, words, groups, pitches string }{
		{"CDEF CDE CD C", "1+1+1+1 (4 pulses), 4 times, 1 tone fewer at the end each time",
			"C4 D4 E4 F4, dealt afresh each cycle", "[1+1+1+1, 1+1+1, 1+1, 1]", "[C4 D4 E4 F4, C4 D4 E4, C4 D4, C4]"},
		{"CDEF DEF EF F", "1+1+1+1 (4 pulses), 4 times, 1 tone fewer at the front each time",
			"C4 D4 E4 F4, each cycle the last of them", "[1+1+1+1, 1+1+1, 1+1, 1]", "[C4 D4 E4 F4, D4 E4 F4, E4 F4, F4]"},
		{"F EF DEF CDEF", "1 (1 pulse), 4 times, 1 tone more at the front each time",
			"C4 D4 E4 F4, each cycle the last of them", "[1, 1+1, 1+1+1, 1+1+1+1]", "[F4, E4 F4, D4 E4 F4, C4 D4 E4 F4]"},
		{"C CDE CDEFG CDEFGAB", "1 (1 pulse), 4 times, 2 tones more at the end each time",
			"C4 D4 E4 F4 G4 A4 B4, dealt afresh each cycle", "[1, 1+1+1, 1+1+1+1+1, 1x7]", "[C4, C4 D4 E4, C4 D4 E4 F4 G4, C4 D4 E4 F4 G4 A4 B4]"},
		// Each twice, and the last begun: four of the seventh cycle's five tones.
		{"AB AB GAB GAB FGAB FGAB EFGA", "1+1 (2 pulses), 6 times and 4 pulses of the next, 1 tone more at the front after each 2 times",
			"E4 F4 G4 A4 B4, each cycle the last of them", "[1+1, 1+1, 1+1+1, 1+1+1, 1+1+1+1, 1+1+1+1, 1+1+1+1]",
			"[A4 B4, A4 B4, G4 A4 B4, G4 A4 B4, F4 G4 A4 B4, F4 G4 A4 B4, E4 F4 G4 A4]"},
	} {
		l := lettered(t, c.melody)
		told, text := additiveOf(t, l)
		require.NotNil(t, told, c.melody)
		assert.Equal(t, c.want, told.String())
		assert.Equal(t, c.words, told.SeriesWords(l))
		assert.Contains(t, text, "    groups: "+c.groups+"\n")
		assert.Contains(t, text, "    pitches: "+c.pitches+"\n")
		assert.NotContains(t, text, "process")
	}
}

// Four cycles of CDEF, one tone fewer each time: kind 3, four 1s gamma(1)+gamma(1)+
// gamma(4) = 1+1+5, ten values gamma(10) = 7; the process 3, each 1, step 1, fewer and
// where 2. Pitches: kind 3, restart 1, gamma(4) = 5, four tones of gamma(1)+7 = 32, how
// many gamma(4) = 5, two bits each 8.
func TestBitsOfAMelody(t *testing.T) {
	told, _ := additiveOf(t, lettered(t, "CDEF CDE CD C"))
	require.NotNil(t, told)
	assert.InDelta(t, 3+7+7+7, told.RhythmBits, 1e-9)
	assert.InDelta(t, 3+1+5+32+5+8, told.PitchBits, 1e-9)
}

// Whatever grows or shrinks, at the end or in front, is found, and its spec sounds the
// melody.
func TestMelodiesOfEachForm(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := Melody{First: rapid.IntRange(1, 9).Draw(t, "first"), Step: rapid.IntRange(1, mostStep).Draw(t, "step"),
			Each: rapid.IntRange(1, mostEach).Draw(t, "each"), Front: rapid.Bool().Draw(t, "front")}
		cycles := 3*m.Each + 1
		if rapid.Bool().Draw(t, "fewer") {
			m.First, m.Step = m.First+3*m.Step, -m.Step
		}
		most := max(m.Tones(0), m.Tones(cycles-1))
		var list []heard.Tone // no tone comes twice in it
		for i := range most {
			list = append(list, heard.Tone{Step: "CDEFGAB"[i%7], Octave: int8(1 + i/7)})
		}
		var chords [][]heard.Tone
		for k := range cycles {
			from := 0
			if m.Front {
				from = most - m.Tones(k)
			}
			for _, tone := range list[from : from+m.Tones(k)] {
				chords = append(chords, []heard.Tone{tone})
			}
		}
		items := make([]Item, len(chords))
		for i := range items {
			items[i].Size = 1
		}
		l, err := FromDurations(items, beat.Plain(beat.Of(1, 8)))
		require.NoError(t, err)
		l.sound(chords)
		told, text := additiveOf(t, l)
		require.NotNil(t, told)
		if m.Step == 1 && !m.Front {
			assert.Equal(t, []process.Rule{{Kind: process.Append, Size: 1, After: m.Each}}, told.Loop().Process)
			return
		}
		require.NotNil(t, told.Loop().Melody, text)
		assert.Equal(t, m, *told.Loop().Melody)
	})
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
		for _, d := range Search(lettered(t, string(letters)), Options{Exceptions: align.None}) {
			if d.additive && d.Saved > leastBits {
				invented++
			}
		}
	}
	assert.LessOrEqual(t, invented, 3, "of 1,000: as many as of lists of values")
	repeated := lettered(t, "CDE CDE CDE CDE")
	assert.Empty(t, newLine(repeated, repeated.Items(), Hold, 0).additive())
}
