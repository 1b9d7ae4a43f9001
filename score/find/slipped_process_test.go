package find

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tieover/score/beat"
	"tieover/score/heard"
	"tieover/score/process"
)

// By hand. A process with exceptions takes kind 3, its first cycle, the process (3 and
// gamma of its numbers), gamma of the attacks, and the exceptions.
//
// Grows: 3+2+2 takes 3+3+3+3+3 = 15; grow: kind 3, after 1, by 1 + 1, group 1, from none
// 1 = 8; 21 attacks 9; one exception log2 21 = 4.39 + gamma(2) 3 + kind 2 + gamma(1) 1 +
// sign 1 = 11.4. In all 46.4.
//
// Shrinks: 9+2 takes 7+3+3+3+2 = 18; 8; 17 attacks 9; twice: log2 17 = 4.09 + 3 + 4 =
// 11.1. In all 49.1.
//
// Adds: 3+2 takes 3+3+3+3+2 = 14; append: kind 3, after 1, gamma(2) 3 = 7; 34 attacks
// 11; one left out log2 34 = 5.09 + 3 + 4 = 12.1. In all 47.1.
func TestProcessWithASlip(t *testing.T) {
	for _, c := range []struct {
		list, want, but string
		bits            float64
	}{
		{"3 2 2 4 2 2 5 2 2 6 3 2 7 2 2 8 2 2 9 2 2", "3+2+2 (7 pulses), 7 times, group 1 grows by 1 each time, 1 exception",
			"cycle 4: 6+3+2 instead (group 2 a pulse longer)", 46.4},
		{"9 2 8 2 7 2 6 2 2 5 2 4 2 3 2 2 2", "9+2 (11 pulses), 8 times, group 1 loses 1 each time, 1 exception",
			"cycle 4: 6+2+2 instead (group 2 twice)", 49.1},
		{"3 2 3 2 2 3 2 2 2 3 2 2 2 3 2 2 2 2 2 3 2 2 2 2 2 2 3 2 2 2 2 2 2 2", "3+2 (5 pulses), 7 times, one more group of 2 at the end each time, 1 exception",
			"cycle 4: 3+2+2+2 instead (group 5 left out)", 47.1},
		{"1 2 3 4 6 7 8 9 10 11 12", "1 (1 pulse), 12 times, group 1 grows by 1 each time, 1 exception", "cycle 5: left out", 31.5},
	} {
		best := Search(durations(t, c.list), Options{})[0]
		require.False(t, best.IsExact(), c.list)
		assert.Equal(t, c.want, best.String())
		assert.InDelta(t, c.bits, best.Bits(), 0.05, c.list)
		require.Len(t, best.Stretches[0].Exceptions, 1, c.list)
		assert.Equal(t, c.but, best.Stretches[0].Exceptions[0].String())
	}
}

// Two attacks too many that are four cycles apart make the list a loop of 21 groups
// heard two times and a half: 3 + 7 + 3 + 9 + 21·log2 3 + 11 = 66.3 bits. 3+3+3+2+2 with
// both takes 3 + 19 + 11 + log2 C(52,2) 10.4 + 3 + 2·3 = 52.4, and goes first.
func TestLongLoopHidesTwoSlips(t *testing.T) {
	found := Search(durations(t, "3 3 3 2 2 3 3 3 2 2 3 3 3 2 1 1 3 3 3 2 2 3 3 3 2 2 3 3 3 2 2 3 3 3 2 1 1 3 3 3 2 2 3 3 3 2 2 3 3 3 2 2"), Options{})
	assert.Equal(t, "3+3+3+2+2 (13 pulses), 10 times, 2 exceptions", found[0].String())
	assert.InDelta(t, 52.4, found[0].Bits(), 0.05)
	assert.InDelta(t, 66.3, found[1].Bits(), 0.05)
	assert.Equal(t, 21, len(found[1].Loop().Groups))
}

// A loop heard twice is a loop, and no shorter one with an exception whose second
// sounds at the end, where nothing is coded.
func TestLongLoopStaysALoop(t *testing.T) {
	best := Search(durations(t, "3 2 3 3 2 3 2 1 3 2 3 3 2 3 2 4 3 2 3 3 2 3 2 1 3 2 3 3 2 3 2 4"), Options{})[0]
	assert.Equal(t, "3+2+3+3+2+3+2+1+3+2+3+3+2+3+2+4 (41 pulses), 2 times", best.String())
}

// Swapped groups that are not the loop's first stand in taps where they were struck.
func TestTapsOfSwappedGroups(t *testing.T) {
	at := 1.0
	var onsets []float64
	for c := range 10 {
		cycle := []int{3, 3, 3, 2, 2}
		if c == 2 {
			cycle = []int{3, 3, 2, 3, 2}
		}
		for _, size := range cycle {
			onsets = append(onsets, at)
			at += 0.25 * float64(size)
		}
	}
	l, taps, err := FromOnsets(onsets, TapOptions{Tempo: 120})
	require.NoError(t, err)
	best := Search(l, Options{})[0]
	assert.Equal(t, "3+3+3+2+2 (13 pulses), 10 times, 1 exception", best.String())
	assert.Equal(t, "cycle 3: 3+3+2+3+2 instead (groups 3 and 4 swapped)", best.Stretches[0].Exceptions[0].String())
	assert.Empty(t, taps.Deviations)
}

// Whatever process slips, the spec that is written sounds exactly the list.
func TestSpecSoundsAProcessThatSlips(t *testing.T) {
	found := 0
	rapid.Check(t, func(t *rapid.T) {
		cycle := rapid.SliceOfN(rapid.Int64Range(1, 5), 1, 4).Draw(t, "groups")
		rule := rapid.SampledFrom([]process.Rule{{Kind: process.Grow, By: 1}, {Kind: process.Grow, By: -1}, {Kind: process.Append, Size: 2}}).Draw(t, "process")
		cycles := rapid.IntRange(5, 10).Draw(t, "cycles")
		if rule.By < 0 {
			cycle[0] += int64(cycles)
		}
		var list []Item
		for range cycles {
			for _, size := range cycle {
				list = append(list, Item{Size: size})
			}
			if rule.Kind == process.Append {
				cycle = append(cycle, int64(rule.Size))
			} else {
				cycle[0] += rule.By
			}
		}
		l, err := FromDurations(slips(t, list), beat.Plain(beat.Of(1, 8)))
		require.NoError(t, err)
		instrument := ""
		if rapid.Bool().Draw(t, "pitches") {
			instrument, l.Chords = "piano", [][]heard.Tone{{{Step: 'C', Octave: 4}}, {{Step: 'E', Octave: 4}}}
			for i := range l.Hits {
				l.Hits[i].Chord = i % 2
			}
		}
		ranked := Search(l, Options{Exceptions: rapid.SampledFrom([]int{0, 0, 4}).Draw(t, "tolerance")})
		if d := ranked[0]; !d.IsExact() && d.Stretches[0].Process != nil {
			found++
		}
		soundsLike(t, l, ranked, instrument)
	})
	assert.NotZero(t, found)
}

// Where the first attack of a cycle is missing, a spec cannot count the cycles that
// follow as the process does: it lists them.
func TestSpecListsAProcessWithoutAHead(t *testing.T) {
	l := durations(t, "3 2 2 4 2 2 5 2 8 2 2 7 2 2 8 2 2 9 2 2")
	ranked := Search(l, Options{})
	assert.Equal(t, "3+2+2 (7 pulses), 7 times, group 1 grows by 1 each time, 1 exception", ranked[0].String())
	assert.Equal(t, "cycle 3: 5+2+8+2+2 instead (2+6 as 8)", ranked[0].Stretches[0].Exceptions[0].String())
	text := soundsLike(t, l, ranked, "")
	assert.Contains(t, text, "    groups: [3+2+2, 4+2+2, 5+2+8+2+2, 7+2+2, 8+2+2, 9+2+2]\n")
}
