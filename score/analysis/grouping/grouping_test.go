package grouping_test

import (
	"fmt"
	"math/big"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	. "tieover/score/analysis/grouping"

	"tieover/score/beat"
)

func box(t *testing.T, s string) Rhythm {
	t.Helper()
	r, err := FromBox(s)
	require.NoError(t, err)
	return r
}

func TestResultants(t *testing.T) {
	for _, r := range table(t, "resultants") {
		got := Resultant(r.ints(t, "generators", ":")...)
		total := 0
		for _, d := range got {
			total += d
		}
		assert.Equal(t, r.int(t, "period"), total, r)
		assert.Len(t, got, r.int(t, "terms"), r)
		mirror := slices.Clone(got)
		slices.Reverse(mirror)
		assert.Equal(t, mirror, got, "a resultant is a palindrome: %v", r)
		if r["series"] != "" {
			assert.Equal(t, r["series"], beat.Sum(got), r)
		}
	}
}

func TestResultantsWithLongSeries(t *testing.T) { // beginnings computed independently
	assert.Equal(t, []int{3, 2, 1, 2, 1, 1, 2, 3, 1, 2, 2, 1}, Resultant(3, 5, 8)[:12])
	assert.Equal(t, []int{4, 1, 3, 1, 1, 2, 3, 1, 2, 2, 4, 1}, Resultant(4, 5, 9)[:12])
}

func TestComplementaryFactors(t *testing.T) {
	for _, r := range table(t, "complementary") {
		assert.Equal(t, r["series"], beat.Sum(Complementary(r.ints(t, "generators", ":")...)), r)
		assert.Equal(t, r["series"], beat.Sum(Resultant(r.ints(t, "factors", ":")...)), r)
	}
}

func TestFractioning(t *testing.T) {
	for _, r := range table(t, "fractioning") {
		g := r.ints(t, "generators", ":")
		assert.Equal(t, r["series"], beat.Sum(Fractioning(g[0], g[1])), r)
	}
}

// By hand: 3 and 2 give 0 3 6, and twice three attacks two apart, 0 2 4 and 3 5
// 7, in 9 units; 6 and 4 the same at half the speed.
func TestFractioningIsReduced(t *testing.T) {
	assert.Equal(t, []int{2, 1, 1, 1, 1, 1, 2}, Fractioning(3, 2))
	assert.Equal(t, []int{4, 2, 2, 2, 2, 2, 4}, Fractioning(6, 4))
}

func TestEuclid(t *testing.T) {
	for _, r := range table(t, "euclid") {
		e := Euclid(r.int(t, "k"), r.int(t, "n"))
		assert.Equal(t, r["box"], e.Box(), r)
		assert.Equal(t, r["groups"], beat.Sum(e.Gaps()), r)
		assert.Equal(t, r["class"], string(ClassOf(e.Gaps())), r)
		assert.True(t, e.IsEuclidean(), r)
	}
}

// The box of E(5,16) that circulates has 17 cells; the vector has 16.
func TestEuclidOfSixteen(t *testing.T) {
	assert.Len(t, Euclid(5, 16).Box(), 16)
}

func TestEuclidIsAsFloorDivisionUpToRotation(t *testing.T) { // definition of maximal evenness, common practice
	for n := 1; n <= 24; n++ {
		for k := 1; k <= n; k++ {
			cells := make([]byte, n)
			for i := range cells {
				cells[i] = '.'
				if i*k%n < k {
					cells[i] = 'x'
				}
			}
			floor := box(t, string(cells))
			assert.Equal(t, Necklace(floor.Gaps()), Necklace(Euclid(k, n).Gaps()), "E(%d,%d)", k, n)
			assert.True(t, floor.IsEuclidean())
		}
	}
}

func TestNamedRotationsOfEuclid(t *testing.T) {
	for _, r := range table(t, "rotations") {
		e := Euclid(r.int(t, "k"), r.int(t, "n"))
		got := e.Rotate(e.Onsets[r.int(t, "onset")-1])
		assert.Equal(t, r["box"], got.Box(), r)
		assert.Equal(t, r["groups"], beat.Sum(got.Gaps()), r)
		_, ok := TurnTo(e.Gaps(), got.Gaps())
		assert.True(t, ok)
	}
}

func TestTimelines(t *testing.T) {
	for _, r := range table(t, "timelines") {
		b := box(t, r["box"])
		assert.Equal(t, r.ints(t, "onsets", " "), b.Onsets, r)
		assert.Equal(t, r["gaps"], beat.Sum(b.Gaps()), r)
		assert.Equal(t, r.ints(t, "distances", " "), b.Distances()[1:], r)
		assert.Equal(t, r["necklace"], beat.Sum(Necklace(b.Gaps())), r)
		assert.Equal(t, r["euclidean"] == "yes", b.IsEuclidean(), r)
	}
}

// The ten bells of 12 units are three necklaces (a library's note, second-hand).
func TestTenBellsAreThreeNecklaces(t *testing.T) {
	seen := map[string]bool{}
	for _, r := range table(t, "measures-12") {
		seen[beat.Sum(Necklace(box(t, r["box"]).Gaps()))] = true
	}
	assert.Len(t, seen, 3)
}

func TestMeasuresOfSixteen(t *testing.T) {
	for _, r := range table(t, "measures-16") {
		b := box(t, r["box"])
		assert.Equal(t, r.int(t, "keith"), b.Keith(), r)
		assert.Equal(t, r.int(t, "offbeatness"), b.OffBeatness(), r)
		assert.Equal(t, r["wnbd"], b.WNBD(4).RatString(), r)
		want, ok := new(big.Rat).SetString(r["nPVI"])
		require.True(t, ok)
		exact, _ := want.Float64()
		assert.InDelta(t, exact, NPVI(b.Gaps()), 1e-9, r)
		assert.Equal(t, r.int(t, "distances"), b.DistinctDistances(), r)
		assert.Equal(t, r.int(t, "gaps"), b.DistinctGaps(), r)
		assert.Equal(t, r["oddity"] == "yes", b.HasOddity(), r)
		assert.Equal(t, r["deep"] == "yes", b.IsDeep(), r)
		assert.Equal(t, r["even"] == "yes", b.IsEuclidean(), r)
		assert.Equal(t, r.int(t, "lhl"), b.LHL(2, 2, 2, 2), r)
	}
}

func TestMeasuresOfTwelve(t *testing.T) {
	for _, r := range table(t, "measures-12") {
		b := box(t, r["box"])
		assert.Equal(t, r.int(t, "offbeatness"), b.OffBeatness(), r)
		assert.Equal(t, r["wnbd"], b.WNBD(3).RatString(), r)
		assert.False(t, b.HasOddity(), r)
	}
}

func TestMeasuresOfEight(t *testing.T) {
	for _, r := range table(t, "measures-8") {
		b := box(t, r["box"])
		assert.Equal(t, r.int(t, "lhl"), b.LHL(2, 2, 2), r)
		assert.Equal(t, r.int(t, "keith"), b.Keith(), r)
		assert.Equal(t, r["wnbd2"], b.WNBD(2).RatString(), r)
		assert.Equal(t, r["wnbd4"], b.WNBD(4).RatString(), r)
		assert.Equal(t, r.int(t, "offbeatness"), b.OffBeatness(), r)
	}
}

// Only the nearest note before a silence counts; computed independently.
func TestLHLLooksAtTheNearestNote(t *testing.T) {
	assert.Equal(t, 0, box(t, "..x.x..x").LHL(2, 2, 2))
	assert.Equal(t, 1, box(t, ".x..x..x").LHL(2, 2, 2))
}

func TestWeights(t *testing.T) { // computed independently; the first also printed, raised by 5
	for want, divisions := range map[string][]int{
		"0 -4 -3 -4 -2 -4 -3 -4 -1 -4 -3 -4 -2 -4 -3 -4": {2, 2, 2, 2},
		"0 -2 -2 -1 -2 -2":                   {2, 3},
		"0 -2 -1 -2 -1 -2":                   {3, 2},
		"0 -3 -3 -2 -3 -3 -1 -3 -3 -2 -3 -3": {2, 2, 3},
	} {
		assert.Equal(t, want, strings.Trim(fmt.Sprint(Weights(divisions...)), "[]"))
	}
}

func TestShapes(t *testing.T) {
	for _, r := range table(t, "shapes") {
		b := box(t, r["box"])
		assert.InDelta(t, r.float(t, "balance"), b.Balance(), 6e-7, r)
		assert.InDelta(t, r.float(t, "evenness"), b.Evenness(), 6e-7, r)
		assert.InDelta(t, r.float(t, "dftK"), b.DFT(), 6e-7, r)
		assert.InDelta(t, r.float(t, "chords"), b.Chords(), 6e-5, r)
	}
}

func TestPerfectBalance(t *testing.T) { // computed independently; the last a known example of Milne et al., from memory
	for _, r := range []Rhythm{
		{12, []int{0, 6}}, {12, []int{0, 4, 8}}, {12, []int{0, 3, 6, 9}},
		{12, []int{0, 3, 4, 8, 9}}, {30, []int{5, 6, 12, 18, 24, 25}},
	} {
		assert.InDelta(t, 1, r.Balance(), 1e-12, r)
	}
	assert.Less(t, Rhythm{12, []int{0, 3, 4, 8, 9}}.Evenness(), 0.99)
}

func TestNPVI(t *testing.T) { // Toussaint 2013, second-hand
	assert.InDelta(t, 200.0/3, NPVI([]int{2, 1, 2, 1}), 1e-9)
	assert.InDelta(t, 100, NPVI([]int{1, 3}), 1e-9)
	assert.InDelta(t, 0, NPVI([]int{1, 1}), 1e-9)
	assert.InDelta(t, 0, NPVI([]int{5}), 1e-9)
}

// Magnitudes: J. Yust, Music Theory Spectrum 43 (2021), ex. 10, second-hand; the
// figure of S. Reich, Clapping Music (1972), has 12 different rotations.
func TestSpectrum(t *testing.T) {
	figure := box(t, "xxx.xx.x.xx.")
	assert.InDeltaSlice(t, []float64{8, 0.7320508, 0, 2, 2, 2.732051, 0}, figure.Spectrum(), 1e-6)
	assert.Equal(t, 8, Period(figure.Gaps()))
}

// Arom 2004, definition from memory: 5, 7, 11, 13 are authentic, 9, 15, 25 quasi,
// 8 and 12 pseudo (computed independently).
func TestAksakClasses(t *testing.T) {
	for want, all := range map[Aksak][][]int{
		Authentic: {{3, 2}, {3, 2, 2}, {2, 2, 3, 2, 2}, {3, 2, 3, 2, 3}},
		Quasi:     {{2, 2, 2, 3}, {3, 2, 2, 2, 2, 2, 2}, {3, 2, 2, 2, 2, 2, 2, 2, 2, 2, 2, 2}},
		Pseudo:    {{3, 3, 2}, {3, 2, 2, 3, 2}},
	} {
		for _, groups := range all {
			class, ok := AksakOf(groups)
			assert.True(t, ok, groups)
			assert.Equal(t, want, class, groups)
		}
	}
	for _, groups := range [][]int{{2, 2}, {3, 3}, {3, 4, 2}, {}} {
		_, ok := AksakOf(groups)
		assert.False(t, ok, groups)
	}
}

func TestNecklaceOfEveryRotation(t *testing.T) {
	word := []int{3, 2, 2, 3, 2}
	for k := range word {
		turned := Turn(word, k)
		assert.Equal(t, []int{2, 2, 3, 2, 3}, Necklace(turned))
		got, ok := TurnTo(word, turned)
		assert.True(t, ok)
		assert.Equal(t, k, got)
	}
	k, ok := TurnTo([]int{3, 2, 3, 2}, []int{2, 3, 2, 3})
	assert.True(t, ok)
	assert.Equal(t, 1, k, "of several turns the least")
	_, ok = TurnTo([]int{3, 2, 2}, []int{3, 3, 1})
	assert.False(t, ok)
	assert.Equal(t, 1, LongFirst([]int{2, 3, 3, 2}))
	assert.Equal(t, []int{2, 2, 3, 2, 3}, Bracelet([]int{3, 2, 3, 2, 2}))
}

func TestBoxes(t *testing.T) {
	_, err := FromBox("x-.")
	assert.EqualError(t, err, `box "x-.": '-' is not x or . as it must be`)
	assert.Equal(t, ".x.x.x", box(t, "x.x.x.").Rotate(-1).Box())
	assert.Equal(t, "x..x.", Of(3, 2).Box())
	assert.Equal(t, "..x...x..x..x.", Of(4, 3, 3, 4).Rotate(-2).Box())
	assert.Equal(t, "..x.x...x..x..x.", box(t, "x..x..x...x.x...").Rotate(8).Box(), "son clave 2-3")
}
