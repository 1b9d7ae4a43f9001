package find

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tieover/score/beat"
	"tieover/score/heard"
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

// Whatever loops follow each other, with whatever slips, silences and pitches, the
// spec that is written for them sounds exactly the list.
func TestSpecSoundsTheSlips(t *testing.T) {
	excepted, parted := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		l := imperfectList(t)
		ranked := Search(l, Options{Exceptions: rapid.SampledFrom([]int{0, 0, 4, -1}).Draw(t, "tolerance")})
		if ranked[0].Exceptions() > 0 {
			excepted++
		}
		if len(ranked[0].Stretches) > 1 {
			parted++
		}
		instrument := ""
		if len(l.Chords) > 1 {
			instrument = "piano"
		}
		soundsLike(t, l, ranked, instrument)
	})
	assert.NotZero(t, excepted)
	assert.NotZero(t, parted)
}

// imperfectList is one to three loops one after the other, with slips, perhaps a
// silence at the start, silences inside, short strokes, and pitches.
func imperfectList(t *rapid.T) *List {
	var list []Item
	for range rapid.IntRange(1, 3).Draw(t, "segments") {
		sizes := rapid.SliceOfN(rapid.Int64Range(1, 5), 1, 5).Draw(t, "groups")
		for range rapid.IntRange(4, 9).Draw(t, "cycles") {
			for _, size := range sizes {
				list = append(list, Item{Size: size})
			}
		}
	}
	list = slips(t, list)
	silences := rapid.IntRange(0, 3).Draw(t, "silences")
	var items []Item
	if rapid.Bool().Draw(t, "late") {
		items = append(items, Item{3, true})
	}
	for i, item := range list {
		if item.Size > 1 && silences == 1 || item.Size > 2 && silences == 2 && i%7 == 3 {
			items = append(items, Item{Size: 1}, Item{item.Size - 1, true})
			continue
		}
		items = append(items, item)
	}
	if items[len(items)-1].Blank {
		items = items[:len(items)-1]
	}
	l, err := FromDurations(items, beat.Plain(beat.Of(1, 8)))
	require.NoError(t, err)
	if round := rapid.IntRange(0, 4).Draw(t, "pitches"); round > 0 {
		l.Chords = nil
		for _, step := range []byte("CDEFG")[:round+1] {
			l.Chords = append(l.Chords, []heard.Tone{{Step: step, Octave: 4}})
		}
		for i := range l.Hits {
			l.Hits[i].Chord = i % (round + 1)
		}
		for range rapid.IntRange(0, 2).Draw(t, "wrong pitches") {
			l.Hits[rapid.IntRange(0, len(l.Hits)-1).Draw(t, "wrong")].Chord = 0
		}
	}
	return l
}

// The first four of 1+4+1+3+2 is five long: that moves all that follows, and is
// one exception of the first cycle.
func TestFirstCycleIsLonger(t *testing.T) {
	l := durations(t, "1 5 1 3 2 1 4 1 3 2 1 4 1 3 2 1 4 1 3 2 1 4 1 3 2 1 4 1 3 2")
	best := Search(l, Options{})[0]
	assert.Equal(t, "1+4+1+3+2 (11 pulses), 6 times, 1 exception", best.String())
	assert.Equal(t, "cycle 1: 1+5+1+3+2 instead (group 2 a pulse longer)", best.Stretches[0].Exceptions[0].String())
}
