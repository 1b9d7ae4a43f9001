package score

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/score/beat"
)

// A bar of 5/4 is 10 eighths. A downbeat 7 eighths in leaves a first bar of 7,
// which lacks 3; one 13 eighths in leaves one of 3 and a whole one before bar 1.
// The section has 24 eighths, and its last felt bar is filled.
func TestFeltBarsByHand(t *testing.T) {
	s := in(PlainSignature(5, 4), LengthRule{Kind: Pulses, N: 24}, layer("Marimba", groups(3, 2, 2, 3)))
	settle(t, s)
	type bar struct{ number, start, length, skipped, filled int }
	for downbeat, want := range map[beat.Time][]bar{
		7:  {{0, 0, 7, 3, 7}, {1, 7, 10, 0, 10}, {2, 17, 10, 0, 7}, {3, 27, 10, 0, 0}}, // to where the written bars end: 30
		13: {{-1, 0, 3, 7, 3}, {0, 3, 10, 0, 10}, {1, 13, 10, 0, 10}, {2, 23, 10, 0, 1}},
		10: {{0, 0, 10, 0, 10}, {1, 10, 10, 0, 10}, {2, 20, 10, 0, 4}},
	} {
		felt, ok := s.Felt(6 * downbeat)
		require.True(t, ok)
		var got []bar
		for b := range felt.Bars() {
			assert.Equal(t, "5/4", b.Signature.String())
			got = append(got, bar{b.Number, eighths(t, b.Start), eighths(t, b.Length), eighths(t, b.Skipped), eighths(t, b.Filled)})
		}
		assert.Equal(t, want, got, "downbeat %d", downbeat)
	}
	felt, _ := s.Felt(6 * 7)
	assert.Equal(t, "bar 0 beat 2½", felt.Where(0).String())
	assert.Equal(t, "bar 0 beat 5", felt.Where(6*5).String())
	assert.Equal(t, "bar 1 beat 1", felt.Where(6*7).String())
	assert.Equal(t, "bar 2 beat 2", felt.Where(6*19).String())
	assert.False(t, felt.OnBarline(0))
	assert.True(t, felt.OnBarline(6*17))
}

func TestNoFeltBars(t *testing.T) {
	s := in(PlainSignature(4, 4), LengthRule{Kind: Bars, N: 2}, layer("Marimba", groups(3, 2)))
	settle(t, s)
	_, ok := s.Felt(s.Length)
	assert.False(t, ok, "after the end")
	s = in(PlainSignature(4, 4), LengthRule{Kind: Bars, N: 4}, layer("Marimba", groups(3, 2)))
	s.Meter = append(s.Meter, PlainSignature(2, 4))
	settle(t, s)
	_, ok = s.Felt(6)
	assert.False(t, ok, "bars that differ")
}

// A half note of pickup, felt from its second quarter on: bars of 4/4 begin 2 eighths
// before bar 1 as written, 6 after it, and so on. The pickup itself begins inside one.
func TestFeltBarlinesInThePickup(t *testing.T) {
	s := in(PlainSignature(4, 4), LengthRule{Kind: Bars, N: 2}, layer("Marimba", groups(3, 2)))
	s.Pickup = beat.Of(1, 2)
	settle(t, s)
	eighth := s.Grid.Must(beat.Of(1, 8))
	felt, ok := s.Felt(-2 * eighth)
	require.True(t, ok)
	var on []int
	for at := s.Opening(); at < s.Length; at += eighth {
		if felt.OnBarline(at) {
			on = append(on, int(at/eighth))
		}
	}
	assert.Equal(t, []int{-2, 6, 14}, on)
}
