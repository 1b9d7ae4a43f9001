package analysis_test

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/score"
	. "tieover/score/analysis"
	"tieover/score/beat"
	"tieover/score/process"
)

// Two additive loops up to where they realign.
func TestComposites(t *testing.T) {
	for _, r := range table(t, "composites") {
		total := r.int(t, "realign")
		s := section(t, score.PlainSignature(4, 4), int64(total), loop("a", numbers(t, r["a"])...), loop("b", numbers(t, r["b"])...))
		f := Of(s)
		assert.Equal(t, total, eighths(beat.Time(f.Together.Period.Int64())), r)
		assert.Equal(t, r.int(t, "repeatsA"), f.Layers[0].Cycles, r)
		assert.Equal(t, r.int(t, "repeatsB"), f.Layers[1].Cycles, r)
		assert.Equal(t, r.int(t, "onsetsA"), f.Layers[0].Attacks.All, r)
		assert.Equal(t, r.int(t, "onsetsB"), f.Layers[1].Attacks.All, r)
		assert.Equal(t, r.int(t, "coincidences"), f.Pairs[0].Attacks, r)
		assert.Equal(t, r.int(t, "composite"), f.Composite.Attacks, r)

		var points, durations []int
		for m := range Moments(s) {
			if len(m.Layers) == 2 {
				points = append(points, eighths(m.Time))
			}
			durations = append(durations, eighths(m.Length))
		}
		assert.Equal(t, numbers(t, r["points"]), points, r)
		assert.Equal(t, numbers(t, r["durations"]), durations, r)

		perBar, times := 0, 0
		for b := range AttacksPerBar(s) {
			perBar += b.Attacks
		}
		for _, g := range f.Composite.Gaps {
			times += g.Times
		}
		assert.Equal(t, f.Composite.Attacks, perBar, r)
		assert.Equal(t, f.Composite.Attacks, times, r)
	}
}

// By hand: 3+2+2+3 against 3+3+2+2+2 in 5/4, six bars: 24 + 25 attacks, 7
// together, 42 in all.
func TestTwoKeepers(t *testing.T) {
	f := Of(section(t, score.PlainSignature(5, 4), 60, loop("a", 3, 2, 2, 3), loop("b", 3, 3, 2, 2, 2)))
	assert.Equal(t, 42, f.Composite.Attacks)
	assert.Equal(t, []int{0, 35, 7}, f.Composite.ByCount)
	var bars []int
	for b := range AttacksPerBar(f.Section) {
		bars = append(bars, b.Attacks)
	}
	assert.Equal(t, []int{6, 6, 6, 8, 8, 8}, bars)
	assert.Equal(t, PerBar{Bar: 1, Attacks: 6}, f.Composite.Fewest)
	assert.Equal(t, PerBar{Bar: 4, Attacks: 8}, f.Composite.Most)
	// 3+2+2+3 in a bar of ten: only its first attack is on a beat.
	assert.Equal(t, Places{All: 24, OnBarline: 6, OffBeat: 18}, f.Layers[0].Attacks)
}

// By hand: a chord and a single note together, lowest first, each once.
func TestPitchesInTheOrderTheySound(t *testing.T) {
	pitched := func(name string, sizes []int, tones ...score.Chord) *score.Layer {
		l := loop(name, sizes...)
		l.Series = [][]score.Chord{tones}
		return l
	}
	e, g, c := score.Tone{Step: 'E', Octave: 4}, score.Tone{Step: 'G', Octave: 3}, score.Tone{Step: 'C', Octave: 5}
	s := section(t, score.PlainSignature(4, 4), 8, pitched("a", []int{4}, score.Chord{c, e}), pitched("b", []int{2}, score.Chord{g}, score.Chord{e}))
	var got [][]string
	var who [][]Sounding
	for m := range Moments(s) {
		got = append(got, Ascending(m.Tones))
		who = append(who, m.Soundings())
	}
	both := []Sounding{{"G3", 1}, {"E4", 0}, {"C5", 0}}
	assert.Equal(t, [][]Sounding{both, {{"G3", 1}}, both, {{"G3", 1}}}, who)
	assert.Equal(t, [][]string{{"G3", "E4", "C5"}, {"G3"}, {"G3", "E4", "C5"}, {"G3"}}, got)

	for m := range Moments(section(t, score.PlainSignature(4, 4), 4, pitched("a", []int{4}, score.Chord{e}), pitched("b", []int{4}, score.Chord{e}))) {
		assert.Equal(t, []Sounding{{"E4", 0}, {"E4", 1}}, m.Soundings(), "a unison has two players")
	}
}

// A figure of twelve against itself shifted ahead, one pulse after each pass:
// Reich, Clapping Music (1972). Bar by bar the composite and the coincidences, as
// in a published matrix; the thirteenth bar is the first again.
func TestClapping(t *testing.T) {
	box := []score.Sign("xxx=xx=x=xx=")
	a, b := loop("a", 1, 1, 2, 1, 2, 2, 1, 2), loop("b", 1, 1, 2, 1, 2, 2, 1, 2)
	a.Patterns[0].Box, b.Patterns[0].Box = box, box
	b.Process = []score.Process{{Rule: process.Rule{Kind: process.Shift, By: -1, After: 1}}}
	s := section(t, score.PlainSignature(12, 8), 13*12, a, b)
	f := Of(s)
	one, both := bytes.Repeat([]byte("."), 13*12), bytes.Repeat([]byte("."), 13*12)
	for m := range Moments(s) {
		one[eighths(m.Time)] = 'x'
		if len(m.Layers) == 2 {
			both[eighths(m.Time)] = 'x'
		}
	}
	rows := table(t, "clapping")
	require.Len(t, rows, 12)
	for bar, r := range append(rows, rows[0]) {
		assert.Equal(t, r["composite"], string(one[12*bar:12*bar+12]), r)
		assert.Equal(t, r["coincidences"], string(both[12*bar:12*bar+12]), r)
	}
	var onsets []int
	for p := range AttacksPerBar(s) {
		onsets = append(onsets, p.Attacks)
	}
	assert.Equal(t, []int{8, 12, 11, 10, 11, 10, 12, 10, 11, 10, 11, 12, 8}, onsets)
	// The head is one pulse earlier each time; after twelve it is home.
	d := f.Layers[1].DriftAgainst(0)
	assert.True(t, d.Constant)
	assert.Equal(t, -1, eighths(d.Step))
	assert.Equal(t, 12, d.Home)
}

// A landing bar holds one attack and no more; it is no bar of the section's
// own, so it is not the one with the fewest.
func TestLandingIsNoExtreme(t *testing.T) {
	s := section(t, score.PlainSignature(4, 4), 24, loop("a", 3, 3, 2))
	s.End = score.Land
	require.Empty(t, (&score.Piece{Grid: grid, Sections: []*score.Section{s}}).Settle())
	c := Of(s).Composite
	assert.Equal(t, 10, c.Attacks)
	assert.Equal(t, PerBar{Bar: 1, Attacks: 3}, c.Fewest)
	assert.Equal(t, PerBar{Bar: 1, Attacks: 3}, c.Most)

	// An end inside a bar lands in that bar: attacks at 8 and 11, and the stroke at 14.
	s = section(t, score.PlainSignature(4, 4), 14, loop("a", 3, 3, 2))
	s.End = score.Land
	require.Empty(t, (&score.Piece{Grid: grid, Sections: []*score.Section{s}}).Settle())
	c = Of(s).Composite
	assert.Equal(t, PerBar{Bar: 1, Attacks: 3}, c.Fewest)
	assert.Equal(t, PerBar{Bar: 1, Attacks: 3}, c.Most, "0 and 3 of the second cycle, and the landing")
}
