package analysis_test

import (
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/score"
	. "tieover/score/analysis"
	"tieover/score/beat"
	"tieover/score/process"
)

// Colors over taleae, as loops of so many pitches and so many durations: when
// both begin together again, in events.
func TestColorsOverTaleae(t *testing.T) {
	for _, c := range []struct {
		color, talea, events, colors, taleae int
		source                               string
	}{
		{30, 10, 30, 1, 3, "Machaut, motet 1: color machaut.exeter.ac.uk; talea from memory"},
		{28, 4, 28, 1, 7, "Machaut, Messe, Kyrie I, from memory"},
		{5, 15, 15, 3, 1, "Messiaen, Liturgie de cristal, cello; K. Kothman 2012"},
		{29, 17, 493, 17, 29, "Messiaen, Liturgie de cristal, piano; K. Kothman 2012"},
		{6, 4, 12, 2, 3, "type 2C = 3T, from memory"},
		{16, 12, 48, 3, 4, "type 3C = 4T, from memory"},
		{7, 5, 35, 5, 7, "second computation"},
		{12, 8, 24, 2, 3, "second computation"},
		{21, 7, 21, 1, 3, "second computation"},
	} {
		f := Of(section(t, score.PlainSignature(4, 4), 8, loop("color", c.color), loop("talea", c.talea)))
		events := eighths(beat.Time(f.Together.Period.Int64()))
		assert.Equal(t, c.events, events, c.source)
		assert.Equal(t, c.colors, events/c.color, c.source)
		assert.Equal(t, c.taleae, events/c.talea, c.source)
	}
}

// Messiaen, Quatuor pour la fin du Temps (1941), I. Durations and totals: K.
// Kothman, teaching notes 2012; single values from memory, they satisfy the
// totals. Four cycles: piano rhythm 26 eighths of 17 durations over 29 chords,
// cello rhythm 33 eighths of 15 durations over 5 pitches.
func TestLiturgie(t *testing.T) {
	piano := []int{4, 4, 4, 2, 3, 2, 2, 2, 2, 3, 3, 3, 1, 2, 3, 4, 8} // sixteenths
	cello := []int{4, 3, 4, 4, 1, 1, 3, 1, 1, 1, 1, 3, 1, 1, 4}       // eighths
	assert.Len(t, piano, 17)
	assert.Len(t, cello, 15)
	assert.Equal(t, 52, sum(piano))
	assert.Equal(t, 33, sum(cello))

	super := 29 * 26 // eighths until piano rhythm and chords are home
	assert.Equal(t, 377, super/2)
	f := Of(section(t, score.PlainSignature(3, 4), 6, loop("piano", super), loop("cello", 33)))
	total := new(big.Int).Div(f.Together.Period, big.NewInt(int64(eighth)))
	assert.EqualValues(t, 24882, total.Int64())
	assert.EqualValues(t, 4147*6, total.Int64(), "bars of 3/4")
	assert.EqualValues(t, 33, total.Int64()/int64(super))
	assert.EqualValues(t, 754, total.Int64()/33)
	// At quarter = 54: 230.39 minutes (over 230 minutes in print).
	atTempo(t, f.Section, 54)
	assert.Equal(t, big.NewRat(12441*60, 54), f.Section.Seconds(24882*eighth))

	// In 3/4 the piano starts at 0, 2, 4 eighths, then is home after 13 bars;
	// the cello by turns on and off the beat, at 0 and 3.
	s := section(t, score.PlainSignature(3, 4), 13*6*2, loop("piano", 26), loop("cello", 33))
	places, _, _ := steps(s, 0, Barline)
	assert.Equal(t, []int{0, 2, 4, 0, 2, 4}, places)
	places, _, _ = steps(s, 1, Barline)
	assert.Equal(t, []int{0, 3, 0, 3, 0}, places)
	assert.EqualValues(t, 13*6*eighth, s.Meet([]int{0}, true).First.Int64())
}

func sum(sizes []int) int {
	n := 0
	for _, s := range sizes {
		n += s
	}
	return n
}

// Phrases of 31 against 32 (Ligeti, Désordre: that a hand loses an eighth is in
// a programme note; the lengths are from memory) and tempo canons (P. Nemire
// and C. Callender, Music Theory Online 20.1, 2014; study numbers from memory).
func TestCanons(t *testing.T) {
	f := Of(section(t, score.PlainSignature(4, 4), 992, loop("right", 8, 8, 8, 7), loop("left", 8, 8, 8, 8)))
	d := f.Layers[0].DriftAgainst(1)
	assert.True(t, d.Constant)
	assert.Equal(t, -1, eighths(d.Step))
	assert.EqualValues(t, 992*eighth, f.Together.First.Int64())
	assert.Equal(t, 32, f.Layers[0].Cycles)
	assert.Equal(t, 31, f.Layers[1].Cycles)

	for _, c := range []struct {
		tempos []int64 // as numbers of beats in the same time
		a, b   int
		beats  [2]int64 // of each until the two meet
	}{
		{[]int64{4, 5}, 0, 1, [2]int64{4, 5}},
		{[]int64{12, 15, 20}, 0, 1, [2]int64{4, 5}},
		{[]int64{12, 15, 20}, 0, 2, [2]int64{3, 5}},
		{[]int64{12, 15, 20}, 1, 2, [2]int64{3, 4}},
		{[]int64{21, 24, 25}, 0, 1, [2]int64{7, 8}},
		{[]int64{21, 24, 25}, 0, 2, [2]int64{21, 25}},
		{[]int64{21, 24, 25}, 1, 2, [2]int64{24, 25}},
		{[]int64{17, 18, 19, 20}, 1, 3, [2]int64{9, 10}},
		{[]int64{17, 18, 19, 20}, 0, 3, [2]int64{17, 20}},
	} {
		all := int64(1)
		for _, n := range c.tempos {
			all, _ = beat.LCM(all, n)
		}
		var layers []*score.Layer
		for i, n := range c.tempos {
			layers = append(layers, loop(string(rune('a'+i)), int(all/n)))
		}
		f := Of(section(t, score.PlainSignature(4, 4), all, layers...))
		for _, p := range f.Pairs {
			if p.A == c.a && p.B == c.b {
				met := p.Together.Period.Int64() / int64(eighth)
				assert.Equal(t, c.beats, [2]int64{met / (all / c.tempos[c.a]), met / (all / c.tempos[c.b])}, c)
			}
		}
		assert.EqualValues(t, all*int64(eighth), f.Together.Period.Int64(), c)
	}
}

// An additive process to n and back, each time one note: n(n+1)/2 + n(n-1)/2 =
// n² notes (Rzewski, Les moutons de Panurge, 1969, from memory).
func TestAdditiveProcess(t *testing.T) {
	l := loop("a", 1)
	l.Strike = score.StrikeAll
	l.Process = []score.Process{{Rule: process.Rule{Kind: process.Append, Size: 1, After: 1}}}
	f := Of(section(t, score.PlainSignature(4, 4), 2145, l))
	assert.Equal(t, 65, f.Layers[0].Cycles)
	assert.Equal(t, 2145, f.Layers[0].Attacks.All)
	assert.True(t, f.Layers[0].End.Complete)
	assert.Zero(t, f.Layers[0].Length, "no two cycles are equally long")
	assert.Equal(t, 65*65, 2145+65*64/2)
}
