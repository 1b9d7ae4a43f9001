package main

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/score/beat"
	"tieover/score/find"
	"tieover/score/find/align"
	"tieover/score/found"
	"tieover/score/heard"
)

// A line of a score that was searched to choose its list was so without exceptions that are
// asked for: it is searched again. Taps were searched with them.
func TestALineIsSearchedWithTheExceptionsAskedFor(t *testing.T) {
	var items []find.Item
	for cycle := range 9 {
		for group, size := range []int64{3, 2, 2} {
			if cycle == 3 && group == 1 {
				size = 3
			}
			items = append(items, find.Item{Size: size})
		}
	}
	list, err := find.FromDurations(items, beat.Plain(beat.Of(1, 8)))
	require.NoError(t, err)
	ranked := find.Search(list, find.Options{})
	require.Equal(t, "3+2+2 (7 pulses), 9 times, 1 exception", ranked[0].String())
	for _, c := range []struct {
		part  *heard.Part
		noise int
		again bool
	}{{&heard.Part{}, 0, false}, {&heard.Part{}, align.None, true}, {nil, align.None, false}} {
		m := found.Music{Lines: []found.Line{{Part: c.part, List: list, Ranked: ranked}}}
		(&findOptions{noise: c.noise}).rank(m)
		for _, d := range m.Lines[0].Ranked {
			assert.True(t, !c.again || d.Exceptions() == 0, "%v", d)
		}
		assert.Equal(t, c.again, m.Lines[0].Ranked[0] != ranked[0])
	}
}
