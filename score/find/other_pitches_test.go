package find

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/score/find/align"
)

// One wrong pitch, an ending with another, or a missing attack leaves the series that the
// other cycles have. Cycles and pitches are written out by hand.
func TestSeriesWithExceptions(t *testing.T) {
	for name, c := range map[string]struct {
		lengths, pitches string
		series           string
		others           []string
	}{
		"one wrong pitch": {strings.Repeat("3 2 1 2 ", 12), strings.Repeat("C E G A ", 5) + "C F G A " + strings.Repeat("C E G A ", 6),
			"C4 E4 G4 A4, dealt afresh each cycle", []string{"cycle 6: pitches C4 F4 G4 A4"}},
		"two endings": {strings.Repeat("3 3 2 ", 8), "C E G C E G C E A C E G C E G C E B C E G C E G",
			"C4 E4 G4, dealt afresh each cycle", []string{"cycle 3: pitches C4 E4 A4", "cycle 6: pitches C4 E4 B4"}},
		"the last attack of a cycle is missing": {strings.Repeat("2 2 3 ", 5) + "2 5 " + strings.Repeat("2 2 3 ", 6),
			strings.Repeat("C D E ", 5) + "C D " + strings.Repeat("C D E ", 6), "C4 D4 E4, dealt afresh each cycle", nil},
		"one inside is missing": {strings.Repeat("2 2 3 ", 5) + "4 3 " + strings.Repeat("2 2 3 ", 6),
			strings.Repeat("C D E ", 5) + "C E " + strings.Repeat("C D E ", 6), "C4 D4 E4, dealt afresh each cycle", []string{"cycle 6: pitches C4 E4"}},
		"a series of their own stays": {strings.Repeat("3 3 2 ", 8), strings.Repeat("C D E F ", 6),
			"C4 D4 E4 F4, 4 pitches of their own against 3 attacks a cycle: together again after 12 attacks (3 rounds of the pitches, 4 cycles)", nil},
		"each cycle has others": {strings.Repeat("3 3 2 ", 8), "C D E A C F E F G D A B G B C D F A E G C A B D", "no pattern in the pitches", nil},
	} {
		l := melody(t, c.lengths, c.pitches)
		ranked := Search(l, Options{})
		best := ranked[0]
		assert.Equal(t, c.series, best.SeriesWords(l), name)
		var others []string
		for _, o := range best.Series.Others {
			others = append(others, "cycle "+string(rune('1'+o.Cycle))+": pitches "+o.Words(l))
		}
		assert.Equal(t, c.others, others, name)
		soundsLike(t, l, ranked, "piano")
		without := Search(l, Options{Exceptions: align.None})
		require.False(t, slices.ContainsFunc(without, func(d *Description) bool { return len(d.Series.Others) > 0 }), name)
	}
}

// Four different chords and one other: 3 for the kind and 1, 4 pitches in gamma(4) = 5; five
// chords of one tone each 1+7 = 8, gamma(5) = 5 for how many. The sixth cycle: gamma(6) = 5,
// gamma(4) = 5 for its length, gamma(2) = 3 for one exception. Eight pitches each one of 5.
func TestBitsOfOtherPitches(t *testing.T) {
	l := melody(t, "3 2 1 2 3", "C E G A F")
	s := &Series{Chords: []int{0, 1, 2, 3}, Others: []OtherPitches{{Turn: 5, Chords: []int{0, 4, 2, 3}}}}
	assert.InDelta(t, 3+1+5+5*8+5+5+5+3+8*2.321928, l.seriesBits(s), 1e-5)
}
