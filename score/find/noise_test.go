package find

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tieover/score/beat"
)

// slips changes a list as a typing hand does: a value too long or too short, one
// struck twice, two run together.
func slips(t *rapid.T, list []Item) []Item {
	for range rapid.IntRange(1, 3).Draw(t, "slips") {
		i := rapid.IntRange(0, len(list)-1).Draw(t, "at")
		switch kind := rapid.IntRange(0, 3).Draw(t, "kind"); {
		case kind == 0:
			list[i].Size++
		case kind == 1 && list[i].Size > 1:
			list[i].Size--
		case kind == 2 && list[i].Size > 1:
			list = slices.Replace(list, i, i+1, Item{Size: 1}, Item{Size: list[i].Size - 1})
		case kind == 3 && i+1 < len(list):
			list = slices.Replace(list, i, i+2, Item{Size: list[i].Size + list[i+1].Size})
		}
	}
	return list
}

// Whatever slips a loop has, the spec that is written for it sounds exactly the
// list, slips included.
func TestSpecSoundsTheSlips(t *testing.T) {
	excepted := 0
	rapid.Check(t, func(t *rapid.T) {
		sizes := rapid.SliceOfN(rapid.Int64Range(1, 5), 2, 5).Draw(t, "groups")
		var list []Item
		for range rapid.IntRange(4, 9).Draw(t, "cycles") {
			for _, size := range sizes {
				list = append(list, Item{Size: size})
			}
		}
		l, err := FromDurations(slips(t, list), beat.Plain(beat.Of(1, 8)))
		require.NoError(t, err)
		ranked := Search(l, Options{Tolerance: 4})
		if ranked[0].Exceptions() > 0 {
			excepted++
		}
		text, err := Plan{Title: "Lock"}.Spec([]Found{{Name: "Lock", List: l, Ranked: ranked}})
		require.NoError(t, err)
		again, _ := attacksOf(t, text)
		require.Len(t, again, len(l.Hits), text)
		for i, h := range l.Hits {
			require.Equal(t, beat.Of(h.At, 8), again[i].Onset, text)
			require.Equal(t, beat.Of(h.Length, 8), again[i].Length, text)
		}
	})
	assert.NotZero(t, excepted)
}

// The first four of 1+4+1+3+2 is five long: that moves all that follows, and is
// one exception of the first cycle.
func TestFirstCycleIsLonger(t *testing.T) {
	l := durations(t, "1 5 1 3 2 1 4 1 3 2 1 4 1 3 2 1 4 1 3 2 1 4 1 3 2 1 4 1 3 2")
	best := Search(l, Options{})[0]
	assert.Equal(t, "1+4+1+3+2 (11 pulses), 6 times, 1 exception", best.String())
	assert.Equal(t, "cycle 1: 1+5+1+3+2 instead (group 2 a pulse longer)", best.Stretches[0].Exceptions[0].String())
}
