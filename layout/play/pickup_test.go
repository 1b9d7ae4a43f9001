package play

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/score"
	"tieover/score/beat"
)

// early is lock, repeated, with a pickup of three eighths that Lock enters with.
func early() *score.Section {
	s := lock()
	s.Pickup, s.End = beat.Of(3, 8), score.Repeat
	s.Layers[0].EnterAt = &score.Place{Kind: score.AtBar, N: 0}
	return s
}

// Bar 1 begins at 3, and its repeat at 13: the pickup is played once. From bar 1 on
// Lock is inside its 3+2: 0, 2, 5, 7 and 10 as cut by the end. The pickup has a meter of its
// length.
func TestPickup(t *testing.T) {
	f := performed(t, 0, early())
	assert.Equal(t, []Pass{{0, 1, 3, 10, 3}, {0, 2, 13, 10, 0}}, f.Passes)
	assert.Equal(t, []beat.Time{0, 3, 5, 8, 10, 13, 15, 18, 20}, onsets(&f.Voices[0]))
	var meters []Meter
	for m := range f.Meters() {
		meters = append(meters, m)
	}
	assert.Equal(t, []Meter{{0, 3, 8, beat.Of(1, 8)}, {3, 5, 8, beat.Of(1, 8)}}, meters)
	assert.Equal(t, beat.Time(23), f.Length)
	assert.True(t, events(&f.Voices[0])[0].Pickup)
	assert.False(t, events(&f.Voices[0])[1].Pickup)
}

// A count-in of one bar goes on to where the pickup comes in: five eighths and the two of
// its bar that it leaves out. All of it is in 5/8.
func TestCountInBeforeAPickup(t *testing.T) {
	f := performed(t, 1, early())
	assert.Equal(t, beat.Time(7), f.Lead)
	assert.Equal(t, beat.Time(7), onsets(&f.Voices[0])[0])
	var clicks, downbeats []beat.Time
	for c := range f.Clicks(true) {
		clicks = append(clicks, c.At)
		if c.Downbeat {
			downbeats = append(downbeats, c.At)
		}
	}
	assert.Len(t, clicks, 7+3+10+10)
	assert.Equal(t, []beat.Time{0, 5, 10, 15, 20, 25}, downbeats)
	for m := range f.Meters() {
		assert.Equal(t, Meter{0, 5, 8, beat.Of(1, 8)}, m)
	}
}
