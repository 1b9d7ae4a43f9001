package found

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/score/beat"
	"tieover/score/find"
	"tieover/score/heard"
)

// eighths makes a line of sizes in eighths that begins some pulses late, and
// searches it.
func eighths(t *testing.T, name string, late int64, sizes ...int64) Line {
	t.Helper()
	var items []find.Item
	if late > 0 {
		items = append(items, find.Item{Size: late, Blank: true})
	}
	for _, size := range sizes {
		items = append(items, find.Item{Size: size})
	}
	list, err := find.FromDurations(items, beat.Plain(beat.Of(1, 8)))
	require.NoError(t, err)
	return Line{Name: name, List: list, Ranked: find.Search(list, find.Options{})}
}

// times repeats a cycle.
func times(n int, cycle ...int64) (all []int64) {
	for range n {
		all = append(all, cycle...)
	}
	return all
}

// A rake in 3+2+2 from the start and a scythe in 3+3+2+2, four eighths late:
// 7a = 4+10b first at 14 (a = 2, b = 1), again after lcm(7, 10) = 70 eighths.
// Fourteen eighths are 7/4 of a whole note, seventy 35/4.
func TestMeetings(t *testing.T) {
	rake, scythe := eighths(t, "rake", 0, times(8, 3, 2, 2)...), eighths(t, "scythe", 4, times(6, 3, 3, 2, 2)...)
	assert.Equal(t, []string{
		"scythe begins 4 pulses after rake",
		"all begin together after 14 eighths, and again after every 70 eighths",
	}, Meetings([]Line{rake, scythe}))

	// Both from the start: only the period counts. Bars of 7/8 have five of them at 35 eighths.
	drag := eighths(t, "drag", 0, times(8, 3, 2)...)
	rake.Bars = Bars("7/8", rake.List)
	assert.Equal(t, []string{"all begin together again after 35 eighths, at bar 6 beat 1"}, Meetings([]Line{rake, drag}))

	// Cycles of 4 and 6, one eighth apart: an even and an odd number are never the same.
	even, odd := eighths(t, "even", 0, times(8, 3, 1)...), eighths(t, "odd", 1, times(8, 4, 2)...)
	assert.Equal(t, "their cycles never begin together", Meetings([]Line{even, odd})[1])

	// Cycles of 7, 9 and 5 from 0, 26 and 50: 7a = 26+9b = 50+5c first at 350, and the last to
	// enter is gone at 85. Of 7 and 9 from 0, 63 comes after 56 and 54.
	caller, rower, oar := eighths(t, "caller", 0, times(17, 3, 2, 2)...), eighths(t, "rower", 26, times(10, 4, 3, 2)...), eighths(t, "oar", 50, times(7, 2, 3)...)
	assert.Contains(t, Meetings([]Line{caller, rower, oar}), "their cycles do not begin together while all play")
	rower = eighths(t, "rower", 0, times(6, 4, 3, 2)...)
	rake.Bars = nil
	assert.Equal(t, []string{"all begin together again after 63 eighths, when not all play any more"}, Meetings([]Line{rake, rower}))

	// Not all are loops: nothing is said. A single line meets nobody.
	free := eighths(t, "free", 0, 3, 5, 2, 7, 4, 1, 1, 6)
	require.True(t, free.Ranked[0].Literal)
	assert.Empty(t, Meetings([]Line{rake, free}))
	assert.Empty(t, Meetings([]Line{rake}))
}

func TestBarsOfAMeter(t *testing.T) {
	list := eighths(t, "rake", 0, times(3, 3, 2, 2)...).List // 21 eighths
	bars := Bars("3+2+2/8", list)
	require.Len(t, bars.Bars, 3)
	last := bars.Bars[2]
	assert.Equal(t, "3", last.Number)
	assert.Equal(t, beat.Of(14, 8), last.Start)
	assert.Equal(t, []beat.Span{beat.Of(3, 8), beat.Of(1, 4), beat.Of(1, 4)}, last.Beats)
	// Groups are beats only where the meter names several.
	assert.Equal(t, []beat.Span{beat.Of(1, 4), beat.Of(1, 4), beat.Of(3, 8), beat.Of(1, 4)}, Bars("2/4+3+2/8", list).Bars[0].Beats)
	assert.Nil(t, Bars("7/0", list))
	for _, wrong := range []string{"", "7", "0/8", "3+/8", "4/3"} {
		_, ok := BarLength(wrong)
		assert.False(t, ok, wrong)
	}
}

func TestTidy(t *testing.T) {
	for text, want := range map[string]string{
		" Low\ngate\t2 ":               "Low gate 2",
		"\u202e\u2066\ufeff\x00\ufffd": "",
		"Ecluse\u0301":                 "Eclusé",
		strings.Repeat("é", 150):       strings.Repeat("é", 100),
	} {
		assert.Equal(t, want, Tidy(text))
	}
}

func TestPartNames(t *testing.T) {
	parts := []*heard.Part{{Name: "Gate"}, {Name: "Gate"}, {Name: " "}, {Name: "barline"}, {Name: "Gate (2)"}}
	names, taken, notes := PartNames(parts)
	var all []string
	for _, p := range parts {
		all = append(all, names[p])
	}
	assert.Equal(t, []string{"Gate", "Gate (2)", "Part 3", "barline (2)", "Gate (2) (2)"}, all)
	assert.Equal(t, "Part 3 (2)", taken.Own("Part 3"))
	assert.Equal(t, []string{
		"several parts are called Gate; one is now Gate (2)",
		"no layer may be called barline; it is now barline (2)",
		"several parts are called Gate (2); one is now Gate (2) (2)",
	}, notes)
}

func TestExceptionsAndPlaces(t *testing.T) {
	line := eighths(t, "rake", 0, 3, 2, 2, 3, 2, 2, 3, 3, 2, 3, 2, 2, 3, 2, 2, 3, 2, 2)
	near := line.Ranked[0].Nearest
	require.NotNil(t, near)
	assert.Equal(t, []string{"but cycle 3: 3+3+2 instead (group 2 a pulse longer)"}, line.Exceptions(near))
	assert.Equal(t, "pulse 15", line.Where(14))
	line.Bars = Bars("2/4", line.List)
	assert.Equal(t, []string{"but cycle 3, at bar 4 beat 2: 3+3+2 instead (group 2 a pulse longer)"}, line.Exceptions(near))
	line.Bars, line.Part, line.From = nil, Bars("2/4", line.List), beat.Of(1, 2) // the list begins in bar 2
	assert.Equal(t, "bar 5 beat 2", line.Where(14-4+4))
}
