package score

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/score/beat"
	"tieover/score/process"
)

// Two additive loops together, one period each: realignment, repeats, onsets,
// coincidences and the durations of the composite. Computed independently of
// this program.
func TestTwoLoopsTogether(t *testing.T) {
	for _, row := range []struct {
		one, two             []int
		at, repeat1, repeat2 int
		onsets1, onsets2     int
		both, composite      string
	}{
		{[]int{3, 2, 2, 2}, []int{3, 2, 2}, 63, 7, 9, 28, 27, "0 3 5 7 12 14 21 45 52 54 59 61",
			"3+2+2+2+1+2+2+2+1+1+1+2+2+1+1+1+1+1+2+1+1+1+1+1+1+2+1+1+1+1+1+2+2+1+1+1+2+2+2+1+2+2+2"},
		{[]int{2, 2, 3}, []int{3, 3, 2}, 56, 8, 7, 24, 21, "0 11 14 16 30 32 35 46 51",
			"2+1+1+2+1+1+1+2+3+2+2+1+2+1+1+1+1+2+1+2+2+3+2+1+1+1+2+1+1+2+2+1+2+2+1+2"},
		{[]int{3, 3, 2}, []int{3, 2}, 40, 5, 8, 15, 16, "0 3 8 30 35 38",
			"3+2+1+2+2+1+2+1+1+1+2+1+1+2+1+1+1+2+1+2+2+1+2+3+2"},
		{[]int{3, 2, 3, 2}, []int{3, 2, 2}, 70, 7, 10, 28, 30, "0 3 5 10 28 33 35 38 40 45 63 68",
			"3+2+2+1+2+2+1+1+1+2+1+1+1+1+2+1+1+1+2+2+1+2+2+3+2+2+1+2+2+1+1+1+2+1+1+1+1+2+1+1+1+2+2+1+2+2"},
		{[]int{2, 2, 2, 3}, []int{3, 3, 4}, 90, 10, 9, 40, 27, "0 6 13 20 33 36 40 56 60 63 76 83",
			"2+1+1+2+3+1+1+2+2+1+2+2+2+1+1+2+1+2+1+1+2+3+2+2+2+1+2+1+1+2+1+1+2+1+2+2+2+3+2+1+1+2+1+2+1+1+2+2+2+1+2+2+1+1+3"},
	} {
		s := in(PlainSignature(1, 8), LengthRule{Kind: Realignments, N: 1}, layer("1", groups(row.one...)), layer("2", groups(row.two...)))
		settle(t, s)
		assert.Equal(t, row.at, eighths(t, s.Length))
		assert.Len(t, onsets(t, s, 0), row.onsets1)
		assert.Len(t, onsets(t, s, 1), row.onsets2)

		var both, durations []string
		before := -1
		for at := range s.Moments() {
			now := eighths(t, at.Time)
			if len(at.Layers) == 2 {
				both = append(both, fmt.Sprint(now))
			}
			if before >= 0 {
				durations = append(durations, fmt.Sprint(now-before))
			}
			before = now
		}
		durations = append(durations, fmt.Sprint(row.at-before))
		assert.Equal(t, row.both, strings.Join(both, " "))
		assert.Equal(t, row.composite, strings.Join(durations, "+"))
	}
}

// Phasing a figure against itself, one unit ahead each time: how many onsets
// the composite has and how many coincide. Figure xxx.xx.x.xx. and the matrix
// of its rotations: S. Reich, Clapping Music (1972), as printed in public
// copies of the matrix; 13 sections bring it home.
func TestPhasingTable(t *testing.T) {
	figure := Pattern{}
	for _, c := range "xxx.xx.x.xx." {
		figure.Groups = append(figure.Groups, Item{Size: 1})
		figure.Box = append(figure.Box, Sign(c))
	}
	second := layer("second", figure)
	second.Process = []Process{{Rule: process.Rule{Kind: process.Shift, By: -1, After: 1}}}
	s := in(PlainSignature(12, 8), LengthRule{Kind: Bars, N: 13}, layer("first", figure), second)
	settle(t, s)

	onsets, together := make([]int, 13), make([]int, 13)
	for at := range s.Moments() {
		bar := eighths(t, at.Time) / 12
		onsets[bar]++
		together[bar] += len(at.Layers) - 1
	}
	assert.Equal(t, []int{8, 12, 11, 10, 11, 10, 12, 10, 11, 10, 11, 12, 8}, onsets)
	assert.Equal(t, []int{8, 4, 5, 6, 5, 6, 4, 6, 5, 6, 5, 4, 8}, together)

	var home []int
	for r := range s.Realignments() {
		home = append(home, eighths(t, r.Time)/12)
	}
	assert.Equal(t, []int{0, 12}, home, "12 shifts bring it home; the 13th section begins there")
}

// Statements until events and pitches are home together. Rows: K. Kothman,
// teaching notes 2012 (17 values against 29 chords: 493 events); Machaut motet
// 1, color of 30 (machaut.exeter.ac.uk, node 2150) over a talea of 10 (from
// memory); 15 values against 5 pitches (same notes); the rest computed
// independently or from memory.
func TestColorsAndTaleae(t *testing.T) {
	for _, row := range []struct{ color, talea, events, colors, taleae int }{
		{30, 10, 30, 1, 3}, {28, 4, 28, 1, 7}, {5, 15, 15, 3, 1}, {29, 17, 493, 17, 29},
		{6, 4, 12, 2, 3}, {16, 12, 48, 3, 4}, {7, 5, 35, 5, 7}, {12, 8, 24, 2, 3}, {21, 7, 21, 1, 3},
	} {
		sizes := make([]int, row.talea)
		for i := range sizes {
			sizes[i] = 1
		}
		l := layer("tenor", groups(sizes...))
		color := make([]Chord, row.color)
		for i := range color {
			color[i] = Chord{{Step: 'C', Octave: int8(i % 8)}}
		}
		l.Series, l.Restart = [][]Chord{color}, RestartNever
		s := in(PlainSignature(row.talea, 8), LengthRule{Kind: Returns, N: 1}, l)
		settle(t, s)
		events := len(onsets(t, s, 0))
		assert.Equal(t, row.events, events)
		assert.Equal(t, row.taleae, s.BarCount())
		assert.Equal(t, row.colors, events/row.color)
	}
}

// The piano's 26 eighths and the cello's 33 with their series: 493 chords take
// 754 eighths; both come home together after lcm(754, 33) = 24,882 eighths =
// 4,147 bars of 3/4, at 54 quarters a minute more than 230 minutes. Totals:
// K. Kothman 2012; values of the rows from memory, they satisfy both totals.
func TestLongReturn(t *testing.T) {
	piano := layer("piano", groups(4, 4, 4, 2, 3, 2, 2, 2, 2, 3, 3, 3, 1, 2, 3, 4, 8))
	piano.Pulse = beat.Plain(beat.Of(1, 16)) // 52 sixteenths to the cycle
	color := make([]Chord, 29)
	for i := range color {
		color[i] = Chord{{Step: 'C', Octave: 4}}
	}
	piano.Series, piano.Restart = [][]Chord{color}, RestartNever
	cello := layer("cello", groups(4, 3, 4, 4, 1, 1, 3, 1, 1, 1, 1, 3, 1, 1, 4))
	cello.Series, cello.Restart = [][]Chord{color[:5]}, RestartNever
	s := in(PlainSignature(3, 4), LengthRule{Kind: Returns, N: 1}, piano, cello)
	s.Tempo.Quarters = beat.Of(54, 1)
	settle(t, s)
	assert.Equal(t, 24882, eighths(t, s.Length))
	assert.Equal(t, 4147, s.BarCount())
	minutes, _ := s.Seconds(s.Length).Float64()
	assert.InDelta(t, 230.39, minutes/60, 0.005)
}
