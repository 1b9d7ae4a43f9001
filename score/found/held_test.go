package found

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/score/beat"
	"tieover/score/heard"
)

// Notes of a file of 480 ticks a quarter: when each begins, and how long its key is down.
// An eighth has 240 ticks, a triplet eighth 160.
func TestGapsOfASequencerAreNoRests(t *testing.T) {
	type notes [][2]int64
	for name, c := range map[string]struct {
		played notes
		full   []int64 // ticks; nil for the same as played
		early  string
	}{
		"nine tenths of 3+3+2 eighths": {notes{{0, 648}, {720, 648}, {1440, 432}, {1920, 648}}, []int64{720, 720, 480, 720}, "after 90 % of their length"},
		"nine tenths of a whole note and sixteenths": {notes{{0, 1728}, {1920, 108}, {2040, 108}}, []int64{1920, 120, 120},
			"after 90 % of their length"},
		"a tick early, and two eighths of rest": {notes{{0, 719}, {1200, 479}, {1680, 239}}, []int64{720, 480, 240}, "1/1920 of a whole note early"},
		"nine tenths, and two eighths of rest":  {notes{{0, 648}, {1200, 432}, {1680, 216}}, []int64{720, 480, 240}, "after 90 % of their length"},
		"seven eighths of quarters":             {notes{{0, 420}, {480, 420}, {960, 420}}, []int64{480, 480, 480}, "1/32 of a whole note early"},
		// 0.89 of 160 and 320 ticks are 142.4 and 284.8; a file has whole ones.
		"a share cut to ticks": {notes{{0, 142}, {160, 284}, {480, 142}}, []int64{160, 320, 160}, "after 88.75 % of their length"},
		"two hands, one held":  {notes{{0, 864}, {0, 648}, {720, 216}, {960, 432}}, []int64{960, 720, 240, 480}, "after 90 % of their length"},

		"held to the end":                        {played: notes{{0, 720}, {720, 720}, {1440, 480}}},
		"a sixteenth of each eighth":             {played: notes{{0, 120}, {240, 120}, {480, 120}}},
		"short strokes at any distance":          {played: notes{{0, 20}, {720, 20}, {1440, 20}}},
		"dotted eighths and sixteenth rests":     {played: notes{{0, 360}, {480, 360}, {960, 360}}},
		"seven sixteenths and a sixteenth rest":  {played: notes{{0, 840}, {960, 840}, {1920, 840}}},
		"one note short on purpose among others": {played: notes{{0, 719}, {720, 50}, {1440, 479}, {1920, 719}}},
		"keys let go at any time":                {played: notes{{0, 700}, {720, 601}, {1440, 466}, {1920, 655}}},
		"played freely":                          {played: notes{{0, 719}, {721, 719}, {1441, 479}}},
	} {
		var attacks []heard.Attack
		for _, n := range c.played {
			attacks = append(attacks, heard.Attack{Onset: beat.Of(n[0], 1920), Length: beat.Of(n[1], 1920)})
		}
		full, early := fullLengths(attacks, beat.Span{}, beat.Of(4, 1), beat.Of(1, 1920))
		assert.Equal(t, c.early, early, name)
		for i, n := range c.played {
			want := n[1]
			if c.full != nil {
				want = c.full[i]
			}
			assert.Equal(t, beat.Of(want, 1920), full[i].Length, "%s, note %d", name, i+1)
		}
	}
}
