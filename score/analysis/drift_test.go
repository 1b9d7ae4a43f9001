package analysis_test

import (
	"math/big"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/score"
	. "tieover/score/analysis"
	"tieover/score/beat"
	"tieover/score/process"
	"tieover/score/processor"
)

// A loop of L against a cycle of M, as bars and as another layer.
func TestDriftTable(t *testing.T) {
	for _, r := range table(t, "drift") {
		l, m := r.int(t, "loop"), r.int(t, "cycle")
		total := r.int(t, "total")
		s := section(t, score.PlainSignature(m, 8), int64(2*total), loop("L", l), loop("M", m))
		f := Of(s)
		for _, against := range []int{Barline, 1} {
			d := f.Layers[0].DriftAgainst(against)
			require.True(t, d.Constant, r)
			assert.Equal(t, r.int(t, "step"), eighths(d.Step), r)
			assert.Equal(t, r.int(t, "repeats"), d.Home, r)
			places, moves, _ := steps(s, 0, against)
			want := numbers(t, r["offsets"])
			assert.Equal(t, want, places[:len(want)], r)
			for _, by := range moves {
				assert.Equal(t, r.int(t, "step"), by, r)
			}
		}
		meeting := f.Pairs[0].Together
		assert.EqualValues(t, total, eighths(beat.Time(meeting.Period.Int64())), r)
		assert.Equal(t, r.int(t, "cycles"), total/m, r)
		assert.Equal(t, r.int(t, "repeats"), total/l, r)
	}
}

// A rhythm group closes on twelve after 12/gcd statements (Schillinger 1946,
// p. 490, second-hand); a figure of twelve moved by one is home after twelve
// (Reich, Piano Phase, 1967).
func TestClosingOnTwelve(t *testing.T) {
	for _, c := range []struct {
		groups  []int
		repeats int
	}{{[]int{3, 2}, 12}, {[]int{3, 1, 2, 2, 1, 3}, 1}, {[]int{4, 1, 3, 2, 2, 3, 1, 4}, 3}, {[]int{13}, 12}} {
		f := Of(section(t, score.PlainSignature(12, 8), 240, loop("a", c.groups...)))
		assert.Equal(t, c.repeats, f.Layers[0].DriftAgainst(Barline).Home, c)
	}
}

// By hand: 12 against 10 is two late each time; totals run on past the bar.
func TestTotalIsUnwrapped(t *testing.T) {
	s := section(t, score.PlainSignature(5, 4), 84, loop("a", 3, 3, 2, 2, 2))
	places, moves, totals := steps(s, 0, Barline)
	assert.Equal(t, []int{0, 2, 4, 6, 8, 0, 2}, places)
	assert.Equal(t, []int{2, 2, 2, 2, 2, 2}, moves)
	assert.Equal(t, []int{2, 4, 6, 8, 10, 12}, totals)
}

// By hand: in bars of 8, 8 and 4 eighths a loop of 5 starts at 0 5 10 15 20 25
// 30 35: places 0 5 2 7 0 5 2 7 with steps of unlike size.
func TestDriftAgainstUnequalBars(t *testing.T) {
	s := section(t, score.PlainSignature(4, 4), 40, loop("a", 3, 2))
	s.Meter = score.Meter{score.PlainSignature(4, 4), score.PlainSignature(4, 4), score.PlainSignature(2, 4)}
	require.Empty(t, (&score.Piece{Grid: grid, Sections: []*score.Section{s}}).Settle())
	places, moves, _ := steps(s, 0, Barline)
	assert.Equal(t, []int{0, 5, 2, 7, 0, 5, 2, 7}, places)
	assert.Equal(t, []int{-3, -3, -3, 1, -3, -3, -3}, moves)
	f := Of(s)
	assert.False(t, f.Layers[0].DriftAgainst(Barline).Constant)
	// Bars start at 0 8 16 20 28 36 40 …: 20 is a barline and a head; 20 begins
	// the rotation anew as well.
	assert.Equal(t, 20, eighths(beat.Time(f.Home.Int64())))
}

// A pattern that moves one pulse later inside its cycle after each pass: its
// head falls at 0, 8, 16 … against bars of 7. The other layer's cycles are the
// bars. By hand.
func TestDriftOfAShiftingLayer(t *testing.T) {
	phased := loop("b", 3, 2, 2)
	phased.Process = []score.Process{{Rule: process.Rule{Kind: process.Shift, By: 1, After: 1}}}
	s := section(t, score.PlainSignature(7, 8), 49, loop("a", 3, 2, 2), phased)
	places, moves, totals := steps(s, 1, 0)
	assert.Equal(t, []int{0, 1, 2, 3, 4, 5, 6}, places)
	assert.Equal(t, []int{1, 1, 1, 1, 1, 1}, moves)
	assert.Equal(t, []int{1, 2, 3, 4, 5, 6}, totals)
	assert.EqualValues(t, 49*eighth, s.Together().First.Int64(), "seven shifts bring it home")
}

// A layer that enters late has no place against one that has not begun, and a
// cut one starts over with every bar, also where the section ends. By hand.
func TestDriftOfEntriesAndCuts(t *testing.T) {
	late := loop("b", 4)
	late.EnterAt = &score.Place{Kind: score.AtBar, N: 2}
	cut := loop("c", 3, 2)
	cut.Loop, cut.CutEvery = score.CutBars, 1
	s := section(t, score.PlainSignature(4, 4), 16, loop("a", 8), late, cut)
	places, _, _ := steps(s, 0, 1)
	assert.Equal(t, []int{0}, places, "only the head at eighth 8 meets b")
	places, moves, _ := steps(s, 2, Barline)
	assert.Equal(t, []int{0, 5, 0, 5}, places)
	assert.Equal(t, []int{-3, 3, -3}, moves)
	assert.False(t, Of(s).Layers[2].DriftAgainst(Barline).Constant)
	end := Of(s).Layers[2].End
	assert.Equal(t, Ending{Cycle: 4, By: score.CutByLoop, At: 16 * eighth, Missing: 2 * eighth, Group: 1, Kept: 3 * eighth, Of: 3 * eighth}, end)
}

// 64 layers of coprime thousands of pulses: the least common cycle has more
// than 200 digits and is there at once.
func TestAstronomicalCycle(t *testing.T) {
	var layers []*score.Layer
	want := big.NewInt(1)
	for n := int64(1009); len(layers) < 64; n += 2 {
		if big.NewInt(n).ProbablyPrime(20) {
			layers = append(layers, loop(string(rune('!'+len(layers))), int(n)))
			want.Mul(want, big.NewInt(n))
		}
	}
	began := processor.Time()
	s := section(t, score.PlainSignature(4, 4), 16, layers...)
	f := Of(s)
	assert.Less(t, processor.Time()-began, time.Minute, "a fraction of a second")
	got := new(big.Int).Div(f.Together.Period, big.NewInt(int64(eighth)))
	assert.Equal(t, want.String(), got.String())
	assert.Greater(t, len(got.String()), 190)
	assert.Len(t, f.Pairs, 64*63/2)
}

// Offsets: 8 against 8 two later never meet, 9 against 15 three later first meet
// at 18, then every 45 (Chinese remainder, by hand).
func TestOffsets(t *testing.T) {
	late := loop("b", 8)
	late.Offset = 2
	f := Of(section(t, score.PlainSignature(4, 4), 64, loop("a", 8), late))
	assert.True(t, f.Pairs[0].Together.Never)
	assert.Equal(t, 2, eighths(f.Pairs[0].Together.Apart))

	late = loop("b", 15)
	late.Offset = 3
	f = Of(section(t, score.PlainSignature(9, 8), 72, loop("a", 9), late))
	assert.EqualValues(t, 18*eighth, f.Pairs[0].Together.First.Int64())
	assert.EqualValues(t, 45*eighth, f.Pairs[0].Together.Period.Int64())
}

// By hand: 9s cut every 2 bars of 5/4 start over at 20 eighths, where a loop of
// 10 begins as well, long before 90.
func TestCutLayersAreStepped(t *testing.T) {
	cut := loop("a", 3, 2, 2, 2)
	cut.Loop, cut.CutEvery = score.CutBars, 2
	p := Of(section(t, score.PlainSignature(5, 4), 60, cut, loop("b", 10))).Pairs[0]
	assert.True(t, p.Together.Walked)
	assert.True(t, p.Together.Start)
	assert.Equal(t, 20, eighths(beat.Time(p.Together.First.Int64())))
	assert.Equal(t, 20, eighths(beat.Time(p.OnBarline.First.Int64())))
}
