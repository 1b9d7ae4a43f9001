package score_test

import (
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tieover/score"
	"tieover/score/beat"
	"tieover/score/sample"
)

// By hand: bars 1 and 2 of 4/4 at 60, bar 3 at 120, then 240 quarters a minute: bar 2
// begins after 4 s, bar 3 after 8, bar 4 after 10, its third beat half a second later.
// The clock may be asked in any order.
func TestClock(t *testing.T) {
	s := read(t, "title: T\nmeter: 4/4\ntempo: 60\nlength: 5 bars\nlayers: [{name: a, groups: 3+2}]\nplan:\n  - {at: bar 4, tempo: 240}\n  - {at: bar 3, tempo: 120}\n").Sections[0]
	clock := s.Clock()
	bar := s.Bar(2).Start
	for _, c := range []struct {
		at   beat.Time
		want *big.Rat
	}{{3*bar + bar/2, big.NewRat(21, 2)}, {0, new(big.Rat)}, {bar, big.NewRat(4, 1)}, {2 * bar, big.NewRat(8, 1)}, {3 * bar, big.NewRat(10, 1)}, {bar / 4, big.NewRat(1, 1)}} {
		assert.Equal(t, c.want.RatString(), clock.At(c.at).RatString())
		assert.Equal(t, c.want.RatString(), s.Seconds(c.at).RatString())
	}
}

// A clock that has run agrees with the sum over all tempos before the moment.
func TestClockAgainstTheSum(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := sample.YAML(t)
		s := read(t, text).Sections[0]
		clock := s.Clock()
		for b := range s.Bars() {
			require.Equal(t, summed(s, b.Start).RatString(), clock.At(b.Start).RatString(), text)
		}
	})
}

// summed adds up, for each tempo, how long it holds before the moment.
func summed(s *score.Section, t beat.Time) *big.Rat {
	sum := new(big.Rat)
	marks := s.Tempos()
	for i, m := range marks {
		until := t
		if i+1 < len(marks) {
			until = min(t, marks[i+1].Time)
		}
		if until > m.Time {
			minutes := s.Grid.Span(until - m.Time).Times(4).Over(m.Tempo.Quarters)
			sum.Add(sum, big.NewRat(60*minutes.Num(), minutes.Den()))
		}
	}
	return sum
}
