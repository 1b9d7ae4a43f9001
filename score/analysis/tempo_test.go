package analysis_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/score"
	. "tieover/score/analysis"
	"tieover/score/beat"
)

// Old value = new value, in parts of a whole note; tempos in quarters.
func TestTempoPivots(t *testing.T) {
	const winold = "E. Carter, Eight Etudes and a Fantasy (1950), Fantasy mm. 16-17; A. Winold in DeLone (ed.) 1975, second-hand; its mirrors print the fraction both ways"
	const canaries = "E. Carter, Canaries, class notes"
	const calc = "computed independently"
	of := beat.Of
	for _, c := range []struct {
		quarters, oldValue, newValue, want beat.Span
		source                             string
	}{
		{of(84, 1), of(2, 1).Over(of(2, 1)), of(3, 2), of(126, 1), winold}, // two halves = three halves
		{of(135, 1), of(3, 32), of(1, 8), of(180, 1), canaries + ", m. 11"},
		{of(180, 1), of(1, 8), of(1, 8), of(180, 1), canaries + ", m. 18"},
		{of(180, 1), of(1, 4), of(3, 8), of(270, 1), canaries + ", m. 20"},
		{of(270, 1), of(1, 8), of(1, 8), of(270, 1), canaries + ", m. 21"},
		{of(270, 1), of(3, 4), of(3, 8), of(135, 1), canaries + ", m. 25"},
		{of(135, 1), of(3, 32), of(1, 8), of(180, 1), canaries + ", m. 43"},
		{of(180, 1), of(1, 8), of(1, 8), of(180, 1), canaries + ", m. 44"},
		{of(180, 1), of(3, 8), of(1, 4), of(120, 1), canaries + ", m. 47"},
		{of(120, 1), of(5, 16), of(1, 4), of(96, 1), canaries + ", m. 50"},
		{of(120, 1), of(1, 4), of(3, 8), of(180, 1), calc},
		{of(120, 1), of(3, 8), of(1, 4), of(80, 1), calc},
		{of(60, 1), of(1, 6), of(1, 4), of(90, 1), calc},
		{of(60, 1), of(1, 20), of(1, 16), of(75, 1), calc},
		{of(80, 1), of(1, 28), of(1, 16), of(140, 1), calc},
		{of(120, 1), of(3, 16), of(1, 4), of(160, 1), calc},
		{of(66, 1), of(1, 2), of(3, 8), of(99, 2), calc},
		{of(100, 1), of(5, 8), of(1, 4), of(40, 1), calc},
		{of(72, 1), of(1, 8), of(1, 16), of(36, 1), calc},
	} {
		assert.Equal(t, c.want, NewTempo(c.quarters, c.oldValue, c.newValue), "%v = %v at %v: %s", c.oldValue, c.newValue, c.quarters, c.source)
	}
}

// Bars of eighths, how long they last; computed independently.
func TestClock(t *testing.T) {
	for _, c := range []struct {
		eighths, quarters int64
		seconds           string
	}{
		{7, 210, "1"},     // eighth = 420
		{8, 150, "8/5"},   // eighth = 300
		{11, 120, "11/4"}, // eighth = 240
		{2, 180, "1/3"},   // dotted quarter = 120
	} {
		s := section(t, score.PlainSignature(4, 4), c.eighths, loop("a", 1))
		atTempo(t, s, c.quarters)
		assert.Equal(t, c.seconds, s.Seconds(s.Length).RatString(), c)
	}
}

// By hand: at quarter = 120 a group of three eighths as the new quarter gives
// 120·(1/4)/(3/8) = 80; a group of two is the quarter already.
func TestPivotsOfASection(t *testing.T) {
	f := Of(section(t, score.PlainSignature(4, 4), 56, loop("a", 3, 2, 2)))
	assert.Equal(t, []Pivot{{beat.Of(3, 8), "a group of 3 of a", beat.Of(80, 1)}}, f.Pivots)
}
