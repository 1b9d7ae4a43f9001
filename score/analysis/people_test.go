package analysis_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/score"
	. "tieover/score/analysis"
	"tieover/score/instrument"
	"tieover/score/process"
)

// colored gives a layer a series of so many pitches that runs on.
func colored(l *score.Layer, pitches int) *score.Layer {
	series := make([]score.Chord, pitches)
	for i := range series {
		series[i] = score.Chord{{Step: "CDEFGAB"[i%7], Octave: 4}}
	}
	l.Series, l.Restart = [][]score.Chord{series}, score.RestartNever
	return l
}

// ones is so many groups of one pulse.
func ones(n int) []int {
	all := make([]int, n)
	for i := range all {
		all[i] = 1
	}
	return all
}

// Pitches over attacks, as the literature counts them.
func TestColors(t *testing.T) {
	for _, c := range []struct {
		pitches, attacks         int
		together, colors, taleae int64
		source                   string
	}{
		{29, 17, 493, 17, 29, "Messiaen, Liturgie de cristal, piano: K. Kothman, teaching notes 2012"},
		{5, 15, 15, 3, 1, "Messiaen, Liturgie de cristal, cello: K. Kothman, teaching notes 2012"},
		{30, 10, 30, 1, 3, "Machaut, motet 1: color of 30 in the Machaut project, University of Exeter, node 2150; 30 over 10 common practice"},
	} {
		s := section(t, score.PlainSignature(4, 4), 8, colored(loop("tenor", ones(c.attacks)...), c.pitches))
		f := Of(s)
		require.Len(t, f.Colors, 1, c.source)
		got := f.Colors[0]
		assert.Equal(t, c.pitches, got.Pitches, c.source)
		assert.Equal(t, c.attacks, got.Attacks, c.source)
		assert.Equal(t, []int64{c.together, c.colors, c.taleae}, []int64{got.Together, got.Colors, got.Taleae}, c.source)
		assert.EqualValues(t, c.together*int64(eighth), got.Lasts.Int64(), c.source) // an eighth an attack
	}
	s := section(t, score.PlainSignature(4, 4), 8, colored(loop("even", 3, 3, 2), 3))
	assert.Empty(t, Of(s).Colors, "as many pitches as attacks run with the rhythm")
}

// Worked out by hand, over all shifts.
func TestAlike(t *testing.T) {
	all := Of(section(t, score.PlainSignature(4, 4), 32, loop("a", 3, 3, 2), loop("b", 2, 3, 3))).Alike
	require.Len(t, all, 1)
	a := all[0]
	// a strikes at 0 3 6, b at 0 2 5. Moved three earlier b strikes at 5 7 2; moved one
	// later at 1 3 6: two. Moved two earlier at 6 0 3: all.
	assert.Equal(t, -2, eighths(a.Shift))
	assert.Equal(t, 3, a.Matches)
	assert.Equal(t, [2]int{3, 3}, [2]int{a.AttacksA, a.AttacksB})
	assert.Equal(t, 100, a.Likeness())
	assert.True(t, a.Easily())
	assert.True(t, a.Cyclic)

	high, low := colored(loop("high", 3, 3, 2), 3), colored(loop("low", 2, 3, 3), 3)
	flute, _ := instrument.Find("flute")
	for i, l := range []*score.Layer{high, low} {
		l.Instrument = flute
		for k := range l.Series[0] {
			l.Series[0][k][0].Octave = int8(6 - i)
		}
	}
	low.Series[0][0][0] = score.Tone{Step: 'A', Octave: 4}
	assert.Empty(t, Of(section(t, score.PlainSignature(4, 4), 32, high, low)).Alike, "an octave lies between them")
}

// By hand, in eighths of 4/4: 3+2+2 cut every four bars, 32 eighths: four cycles
// and 4 more, so group 1 and an eighth of group 2 sound, 3 are missing; each
// cycle begins one earlier, the fifth four.
func TestCuttings(t *testing.T) {
	cut := loop("gate", 3, 2, 2)
	cut.Loop, cut.CutEvery = score.CutBars, 4
	f := Of(section(t, score.PlainSignature(4, 4), 96, cut, loop("walk", 4, 4)))
	require.Len(t, f.Cuttings, 1)
	c := f.Cuttings[0]
	assert.Equal(t, 3, c.Times, "the third on the section's end")
	require.Len(t, c.Kinds, 1)
	k := c.Kinds[0]
	assert.Equal(t, []int{32, 3, 1, 2, -4}, []int{eighths(k.First), eighths(k.Missing), eighths(k.Kept), eighths(k.Of), eighths(k.Drift)})
	assert.Equal(t, 2, k.Group)
}

// Clapping Music: twelve steps, and how many claps coincide at each (matrix of
// the piece as in a public gist; the counts 8 4 5 6 5 6 4 6 5 6 5 4 also worked
// out from the figure by hand).
func TestJourneys(t *testing.T) {
	box := func(name string) *score.Layer {
		l := loop(name, 3, 3, 3, 3)
		for _, sign := range "xxx.xx.x.xx." {
			l.Patterns[0].Box = append(l.Patterns[0].Box, score.Sign(sign))
		}
		return l
	}
	moving := box("second")
	moving.Process = []score.Process{{Rule: process.Rule{Kind: process.Shift, By: -1, After: 8}}}
	s := section(t, score.Signature{Terms: score.PlainSignature(12, 8).Terms}, 13*8*12, box("first"), moving)
	f := Of(s)
	require.Len(t, f.Journeys, 1)
	j := f.Journeys[0]
	assert.Equal(t, []int{1, 0, -1, 8, 12}, []int{j.Layer, j.Partner, eighths(j.By), j.After, j.Steps})
	var together, places, starts []int
	var home []bool
	for step := range j.Walk(s) {
		assert.Equal(t, 8, step.Cycles)
		assert.Equal(t, 64, step.Attacks)
		together = append(together, step.Together/8)
		places = append(places, eighths(step.Place))
		starts = append(starts, eighths(step.Start)/96)
		home = append(home, step.Home)
	}
	assert.Equal(t, []int{8, 4, 5, 6, 5, 6, 4, 6, 5, 6, 5, 4, 8}, together)
	assert.Equal(t, []int{0, -1, -2, -3, -4, -5, -6, -7, -8, -9, -10, -11, 0}, places)
	assert.Equal(t, []int{0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12}, starts)
	assert.True(t, home[0] && home[12])
	assert.NotContains(t, home[1:12], true)
}

// One player: a marimba takes four notes at once, a flute one; at 120 an eighth
// lasts a quarter of a second.
func TestAlone(t *testing.T) {
	pitched := func(name, player string, pitch score.Tone, sizes ...int) *score.Layer {
		l := loop(name, sizes...)
		l.Instrument, _ = instrument.Find(player)
		l.Series = [][]score.Chord{{{pitch}}}
		return l
	}
	c5, e5 := score.Tone{Step: 'C', Octave: 5}, score.Tone{Step: 'E', Octave: 5}
	f := Of(section(t, score.PlainSignature(4, 4), 24, pitched("a", "flute", c5, 3, 3, 2), pitched("b", "marimba", e5, 2, 2)))
	a := f.Composite.Alone
	assert.Equal(t, []int{1}, a.Can)
	assert.True(t, a.Rhythm)
	assert.Equal(t, 1, eighths(a.Closest)) // 2 and 3
	assert.Equal(t, "1/4", a.Seconds.RatString())

	s := f.Section
	atTempo(t, s, 1800) // an eighth lasts a sixtieth of a second
	a = Of(s).Composite.Alone
	assert.Empty(t, a.Can)
	assert.False(t, a.Rhythm)
	assert.Equal(t, "1/60", a.Seconds.RatString())
}
