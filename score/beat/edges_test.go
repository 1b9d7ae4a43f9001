package beat_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/score/beat"
)

// What is a span and what is none: a sign, one to nine digits, and a slash with
// as many again that are not zero.
func TestParseSpan(t *testing.T) {
	for text, want := range map[string]beat.Span{"3/4": beat.Of(3, 4), "-3/4": beat.Of(-3, 4), "6/8": beat.Of(3, 4), "0": {}, "0/7": {},
		"7": beat.Of(7, 1), "999999999": beat.Of(999_999_999, 1), "1/123456789": beat.Of(1, 123_456_789)} {
		got, ok := beat.ParseSpan(text)
		assert.True(t, ok, text)
		assert.Equal(t, want, got, text)
	}
	for _, text := range []string{"", "-", "--1", "+1", "1/", "/2", "1/0", "1/-2", "1/x", "x/2", "1:2", "1/2/3", "1234567890", "1/1234567890", "1.5", " 1"} {
		_, ok := beat.ParseSpan(text)
		assert.False(t, ok, "%q", text)
	}
}

// A product may have 62 bits less one, so that two of them can be added.
func TestBounds(t *testing.T) {
	whole := func(n int64) beat.Span { return beat.Of(n, 1) }
	assert.Equal(t, whole(1<<62-1<<31), whole(1<<31).Mul(whole(1<<31-1)))
	assert.Panics(t, func() { whole(1 << 31).Mul(whole(1 << 31)) }, "2^62")
	assert.Panics(t, func() { whole(1 << 62).Mul(whole(4)) }, "2^64, of which 64 bits hold nothing")
	assert.Panics(t, func() { beat.Of(1, 0) })
	assert.Panics(t, func() { beat.Of(0, -1) })
	assert.Panics(t, func() { whole(1).Over(beat.Span{}) })
	assert.Equal(t, whole(5), whole(5).Over(whole(1)))
	assert.Panics(t, func() { beat.Grid(4).Must(beat.Of(1, 8)) })

	finest, ok := beat.Grid(4).Including(16383)
	assert.True(t, ok)
	assert.Equal(t, beat.MaxGrid, finest)
}

func TestSigns(t *testing.T) {
	for sign, s := range map[int]beat.Span{-1: beat.Of(-1, 3), 0: {}, 1: beat.Of(1, 3)} {
		assert.Equal(t, sign, s.Sign())
	}
	for s, want := range map[beat.Span]int64{{}: 0, beat.Of(4, 2): 2, beat.Of(-3, 1): -3} {
		n, whole := s.IsWhole()
		assert.True(t, whole)
		assert.Equal(t, want, n)
	}
	_, whole := beat.Of(3, 2).IsWhole()
	assert.False(t, whole)
}

// How many of a pulse there are, in words.
func TestCountOf(t *testing.T) {
	tuplet := func(den int64, actual, normal int) beat.Pulse {
		return beat.Pulse{Base: beat.Of(1, den), Actual: actual, Normal: normal}
	}
	for _, c := range []struct {
		n    int64
		p    beat.Pulse
		want string
	}{
		{1, beat.Plain(beat.Of(1, 128)), "1 128th"},
		{-1, beat.Plain(beat.Of(1, 8)), "-1 eighth"},
		{0, beat.Plain(beat.Of(1, 8)), "0 eighths"},
		{3, beat.Plain(beat.Of(1, 2)), "3 halves"},
		{-2, beat.Plain(beat.Of(3, 4)), "-2 dotted halves"},
		{2, beat.Plain(beat.Of(5, 8)), "2 5/8-notes"},
		{4, tuplet(8, 3, 2), "4 triplet eighths"},
		{1, tuplet(8, 3, 2), "1 triplet eighth"},
		{3, tuplet(8, 3, 4), "3 eighths in 3:4"},
		{5, tuplet(16, 5, 4), "5 sixteenths in 5:4"},
		{2, tuplet(8, 5, 2), "2 eighths in 5:2"},
	} {
		assert.Equal(t, c.want, beat.CountOf(c.n, c.p, beat.American))
	}
	for _, none := range []string{"", "dotted", "dotted dotted half", "quaver"} {
		_, ok := beat.ValueNamed(none, beat.American)
		assert.False(t, ok, none)
	}
}
