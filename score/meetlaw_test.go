package score_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tieover/score"
	"tieover/score/beat"
	"tieover/score/sample"
)

// Any two loops come together where their heads, as the section plays them, do by
// the naive score, though their processes and loops start over at the realignments
// of others.
func TestTwoLoopsMeetAsTheyArePlayed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := sample.Of(t, sample.Processes|sample.Series|sample.Cuts|sample.Tuplets)
		s := read(t, text).Sections[0]
		met, _, _ := encounters(s)
		for a := range s.Layers {
			for b := range a {
				for _, barline := range []bool{false, true} {
					compareMeeting(t, s, []int{b, a}, barline, met, text)
				}
			}
		}
	})
}

func compareMeeting(t require.TestingT, s *score.Section, pair []int, barline bool, met []encounter, text string) {
	count := map[beat.Time]int{}
	for _, i := range pair {
		if s.Layers[i].Loop == score.CutBars { // what comes before a cut does not count
			return
		}
		for _, p := range passes(s, i, met, s.Length+1) {
			if p.head < p.ends {
				count[p.head]++
			}
		}
	}
	first := beat.Time(0) // none
	for at, n := range count {
		if n == 2 && at > 0 && at <= s.Length && (first == 0 || at < first) && (!barline || slices.Contains(bars(s), at)) {
			first = at
		}
	}
	m := s.Meet(pair, barline)
	if m.First == nil || !m.First.IsInt64() || beat.Time(m.First.Int64()) > s.Length {
		assert.Zero(t, first, "%d and %d, with the barline %v\n%s", pair[0], pair[1], barline, text)
		return
	}
	assert.EqualValues(t, first, m.First.Int64(), "%d and %d, with the barline %v\n%s", pair[0], pair[1], barline, text)
}
