package find

import (
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/score/heard"
)

// melody is durations with a pitch for each: letters name them.
func melody(t *testing.T, lengths, pitches string) *List {
	t.Helper()
	l := durations(t, lengths)
	l.Chords = nil
	names := strings.Fields(pitches)
	require.Len(t, names, len(l.Hits))
	known := map[string]int{}
	for i, name := range names {
		chord, seen := known[name]
		if !seen {
			chord = len(l.Chords)
			known[name] = chord
			l.Chords = append(l.Chords, []heard.Tone{{Step: name[0], Octave: 4}})
		}
		l.Hits[i].Chord = chord
	}
	return l
}

// The rhythm stays, the pitches come in another order each cycle. Every row is
// written out by hand.
func TestSearchNamesTheOrderOfPitches(t *testing.T) {
	for name, c := range map[string]struct {
		lengths, pitches, rhythm, series, text string
	}{
		"rotated": {"3 2 2 3 2 2 3 2 2 3 2 2 3 2 2", "C D E D E C E C D C D E D E C",
			"3+2+2 (7 pulses), 5 times", "C4 D4 E4, dealt afresh each cycle, starting 1 pitch further on each time",
			"pitches: [C4 D4 E4, D4 E4 C4, E4 C4 D4]\n"},
		"turned round": {"3 2 1 2 3 2 1 2 3 2 1 2 3 2 1 2 3 2 1 2", "C D E F F E D C C D E F F E D C C D E F",
			"3+2+1+2 (8 pulses), 5 times", "C4 D4 E4 F4, dealt afresh each cycle, each second time backwards",
			"pitches: [C4 D4 E4 F4, F4 E4 D4 C4]\n"},
		"backwards by rotation": {"3 1 2 3 1 2 3 1 2 3 1 2 3 1 2", "C D E E C D D E C C D E E C D",
			"3+1+2 (6 pulses), 5 times", "C4 D4 E4, dealt afresh each cycle, starting 1 pitch earlier each time",
			"pitches: [C4 D4 E4, E4 C4 D4, D4 E4 C4]\n"},
		// a loop of one value is a cycle of as many as there are pitches
		"in even notes": {strings.Repeat("2 ", 16), "C D E F D E F C E F C D F C D E",
			"2+2+2+2 (8 pulses), 4 times", "C4 D4 E4 F4, dealt afresh each cycle, starting 1 pitch further on each time",
			"pitches: [C4 D4 E4 F4, D4 E4 F4 C4, E4 F4 C4 D4, F4 C4 D4 E4]\n"},
		// C D E F, then D E F C turned, E F C D, F C D E turned, and again
		"both": {strings.Repeat("3 2 1 2 ", 7), "C D E F C F E D E F C D E D C F C D E F C F E D E F C D",
			"3+2+1+2 (8 pulses), 7 times", "C4 D4 E4 F4, dealt afresh each cycle, starting 1 pitch further on each time and each second time backwards",
			"pitches: [C4 D4 E4 F4, C4 F4 E4 D4, E4 F4 C4 D4, E4 D4 C4 F4]\n"},
	} {
		t.Run(name, func(t *testing.T) {
			l := melody(t, c.lengths, c.pitches)
			found := Search(l, Options{})
			best := found[0]
			assert.Equal(t, c.rhythm, best.String())
			assert.Equal(t, c.series, best.SeriesWords(l))
			assert.Contains(t, soundsLike(t, l, found, "piano"), c.text)
		})
	}
}

// Twice through a cycle is no order, and pitches without one have none.
func TestSearchInventsNoOrderOfPitches(t *testing.T) {
	for _, pitches := range []string{"C D E D E C", "C D E D E C E C D C D E D C E"} {
		n := len(strings.Fields(pitches)) / 3
		l := melody(t, strings.Repeat("3 2 2 ", n), pitches)
		for _, d := range Search(l, Options{}) {
			if d.Series != nil {
				assert.Empty(t, d.Series.Order, pitches)
			}
		}
	}
}

// Even notes whose pitches are drawn by chance: an order may not be found in
// more of them than chance makes.
func TestSearchInventsNoOrderOfShuffledPitches(t *testing.T) {
	random := rand.New(rand.NewPCG(8, 5))
	lists := chanceLists()
	invented := 0
	for range lists {
		n := 24 + random.IntN(40)
		pitches := make([]string, n)
		for i := range pitches {
			pitches[i] = []string{"C", "D", "E", "F"}[i%4]
		}
		random.Shuffle(n, func(i, j int) { pitches[i], pitches[j] = pitches[j], pitches[i] })
		if s := Search(melody(t, strings.Repeat("2 ", n), strings.Join(pitches, " ")), Options{})[0].Series; len(s.Order) > 0 {
			invented++
		}
	}
	assert.Zero(t, invented, "of %d shuffled lists", lists)
}

// 4+4+1 in short strokes sounds the same backwards, every third time, where the
// stroke comes last in its group; only the pitches tell: G F C, G F C, C F G.
func TestSearchHearsATurnInThePitches(t *testing.T) {
	rhythm := strings.Repeat("1 r3 1 r3 1 ", 9)
	best := Search(melody(t, rhythm, strings.Repeat("G F C G F C C F G ", 3)), Options{})[0]
	assert.Contains(t, best.String()+rulesText(best.Series.Order, "pitch"), "backwards in cycles 3, 6 and so on")
}
