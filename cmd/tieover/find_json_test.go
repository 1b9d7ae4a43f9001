package main

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/export/readback"
)

// foundJSON is what `find --json` says of its first line.
func foundJSON(t *testing.T, input string, args ...string) readback.Line {
	t.Helper()
	var got readback.Findings
	decoder := json.NewDecoder(strings.NewReader(findText(t, input, append(args, "--json")...)))
	decoder.DisallowUnknownFields()
	require.NoError(t, decoder.Decode(&got))
	require.NotEmpty(t, got.Lines)
	return got.Lines[0]
}

// swung is 3+3+2 eighths of quarter = 120, eight times, of which the second of each
// pair comes after two thirds: the same moments as 5+4+3 triplet eighths.
func swung() string {
	var taps strings.Builder
	place := 0
	for i := range 24 {
		fmt.Fprintf(&taps, "%.3f\n", 0.4+0.5*float64(place/2)+float64(place%2)/3)
		place += []int{3, 3, 2}[i%3]
	}
	return taps.String()
}

// Fourteen pulses are 3+3+3+3+2, and also threes that start over: the loop goes first,
// the cut is told with it, and none of this in a line of its own.
func TestFindTellsACutWithItsLoop(t *testing.T) {
	assert.Equal(t, "Line: 15 attacks in 42 eighths\n 1. 3+3+3+3+2 (14 pulses), 3 times\n"+
		"    29.0 bits, saves 5.0: weak\n    or: 3s, starting over every 14 pulses\n",
		findText(t, strings.Repeat("3 3 3 3 2 ", 3)))
}

func TestFindTellsWhatTapsAllowAsWell(t *testing.T) {
	out := findText(t, swung(), "--onsets", "-")
	assert.Contains(t, out, "swung 2:1\n 1. 3+3+2 (8 pulses), 8 times\n")
	assert.Contains(t, out, "or, as near: 5+4+3 (12 pulses), 8 times, in pulses of 167 ms (0.7 bits more)\n")
}

func TestFindJSONOfTaps(t *testing.T) {
	line := foundJSON(t, swung(), "--onsets", "-")
	assert.Equal(t, int64(0), line.Begins)
	taps := line.Taps
	require.NotNil(t, taps)
	assert.InDelta(t, 120, taps.Tempo, 0.1)
	assert.True(t, taps.Estimated)
	assert.InDelta(t, 250, taps.Milliseconds, 0.5)
	assert.Equal(t, "2:1", taps.Swing)
	assert.False(t, taps.OpenEnd, "the loop says how long the last one is")
	assert.Empty(t, taps.Deviations)
	require.Len(t, taps.Near, 1)
	assert.Equal(t, "5+4+3 (12 pulses), 8 times, in pulses of 167 ms", taps.Near[0].Text)
	assert.InDelta(t, 0.7, taps.Near[0].Bits, 0.1)

	// The eleventh tap, which begins a cycle of 3+2+2 no more, comes 90 ms late; the
	// pulse lasts 250 ms.
	at, late := 0.5, ""
	for i := range 30 {
		off := 0.0
		if i == 10 {
			off = 0.09
		}
		late += fmt.Sprintf("%.3f\n", at+off)
		at += 0.25 * float64([]int{3, 2, 2}[i%3])
	}
	taps = foundJSON(t, late, "--onsets", "-", "--tempo", "120").Taps
	assert.False(t, taps.Estimated)
	require.Len(t, taps.Deviations, 1)
	assert.Equal(t, 11, taps.Deviations[0].Tap)
	assert.InDelta(t, 90, taps.Deviations[0].Milliseconds, 3)
}

// 3+2+2 four times, then fours: the second begins with the thirteenth attack, after
// 28 pulses, which are seven bars of 2/4.
func TestFindJSONOfSegments(t *testing.T) {
	list := strings.Repeat("3 2 2 ", 4) + strings.Repeat("4 ", 12)
	d := foundJSON(t, list, "--meter", "2/4").Descriptions[0]
	assert.Equal(t, []readback.Segment{
		{Pulse: 1, Attack: 1, Place: "bar 1 beat 1", Groups: "3+2+2", Cycles: 4},
		{Pulse: 29, Attack: 13, Place: "bar 8 beat 1", Groups: "4", Cycles: 12},
	}, d.Segments)
	assert.Empty(t, d.Exceptions)

	// Twelve 3s, then 3+2: the thirteenth 3 is the last of the threes, and 2+3 follows,
	// or the first of 3+2.
	d = foundJSON(t, strings.Repeat("3 ", 12)+strings.Repeat("3 2 ", 8)).Descriptions[0]
	require.Len(t, d.Segments, 2)
	second := d.Segments[1]
	assert.Equal(t, []int{13, 14}, []int{second.From, second.To})
	assert.Zero(t, d.Segments[0].From, "where it all begins is known")
}

// One list that no loop shortens has the nearest, with its exception: the second
// group of the third cycle, which begins after 14 pulses, is a pulse longer.
func TestFindJSONOfTheNearest(t *testing.T) {
	line := foundJSON(t, "3 2 2 3 2 2 3 3 2 3 2 2 3 2 2 3 2 2")
	require.Len(t, line.Descriptions, 1)
	assert.False(t, line.Descriptions[0].Pattern)
	require.NotNil(t, line.Nearest)
	assert.Equal(t, "3+2+2", line.Nearest.Groups)
	assert.Equal(t, []readback.Exception{{Pulse: 15, Place: "pulse 15", Text: "cycle 3: 3+3+2 instead (group 2 a pulse longer)", Cycle: 3, Groups: "3+3+2"}},
		line.Nearest.Exceptions)
	assert.Nil(t, foundJSON(t, "3 2 2 3 2 2 3 2 2").Nearest, "where there is a pattern")
}
