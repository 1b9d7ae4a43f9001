package find

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// foundInTaps taps groups of eighths at quarter = 120 without scatter, and what is found.
func foundInTaps(t *testing.T, groups []int64) []*Description {
	t.Helper()
	var onsets []float64
	now := 1.0
	for _, g := range groups {
		onsets = append(onsets, now)
		now += 0.25 * float64(g)
	}
	l, _, err := FromOnsets(onsets, TapOptions{Tempo: 120})
	require.NoError(t, err)
	return Search(l, Options{})
}

// The last tap is given one pulse when nothing tells how long it lasts. By hand: 27
// taps of twos and threes are a list of 3 + gammas of 2, 2 and 3 (9) + gamma(26) 9 +
// 26 = 47 bits; with the 1 at the end it would take 64.8, and three cycles of 22
// pulses, the last group of which loses one each time (51), seemed to save 13.8. The
// loop takes 3 + 15 + gamma(27) 9, its exception log2 27 = 4.75, 3, 2, 1, 1: 38.75.
func TestAnUnknownLastLengthPaysForNoProcess(t *testing.T) {
	groups := slices.Repeat([]int64{3, 2, 2}, 9)
	groups[8]++ // 3+2+3
	found := foundInTaps(t, groups)
	assert.Equal(t, "3+2+2 (7 pulses), 9 times, 1 exception", found[0].String())
	assert.InDelta(t, 38.75, found[0].Bits(), 0.01)
	assert.InDelta(t, 8.25, found[0].Saved, 0.01)

	// Too short to pay (2.6 bits), but told as the nearest, against the same list:
	// 3 + 9 + 9 + 20 = 41.
	groups = slices.Repeat([]int64{3, 2, 2}, 7)
	groups[5]++ // 3+2+3
	literal := foundInTaps(t, groups)[0]
	require.True(t, literal.Literal, literal.String())
	assert.InDelta(t, 41, literal.Bits(), 0.01)
	require.NotNil(t, literal.Nearest)
	assert.Equal(t, "2.6", fmt.Sprintf("%.1f", literal.Nearest.Saved))
}

// Five cycles as the second of two parts, two pulses after the first: the nearest says so.
func TestTheNearestOfALaterPartIsLater(t *testing.T) {
	part := func(start float64, groups []int64) TapPart {
		p := TapPart{Name: "Lock"}
		for _, g := range groups {
			p.Onsets = append(p.Onsets, start)
			start += 0.25 * float64(g)
		}
		return p
	}
	later := slices.Repeat([]int64{3, 2, 2}, 5)
	later[5]++
	take, err := FromParts([]TapPart{part(1, slices.Repeat([]int64{4, 3}, 8)), part(1.5, later)}, TapOptions{Tempo: 120})
	require.NoError(t, err)
	literal := take.Parts[1].Ranked[0]
	require.True(t, literal.Literal, literal.String())
	require.NotNil(t, literal.Nearest)
	assert.Equal(t, "3+2+2 (7 pulses), 5 times, 1 exception, after 2 pulses of silence", literal.Nearest.String())
}

// A process that is played is found in taps as before.
func TestProcessesAreFoundInTaps(t *testing.T) {
	var groups []int64
	for cycle := range int64(8) {
		groups = append(groups, 3+cycle, 2, 2)
	}
	best := foundInTaps(t, groups)[0]
	assert.Equal(t, "group 1 grows by 1 each time", best.Loop().ProcessWords())
	assert.True(t, best.Strong())
}
