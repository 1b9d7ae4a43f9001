package beat_test

import (
	"fmt"
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"tieover/score/beat"
)

func ExampleSpan_Add() {
	fmt.Println(beat.Of(5, 8).Add(beat.Of(7, 16)))
	// Output: 17/16
}

func ExampleCountOf() {
	fmt.Println(beat.CountOf(2, beat.Plain(beat.Of(1, 8)), beat.American))
	fmt.Println(beat.CountOf(1, beat.Plain(beat.Of(3, 8)), beat.British))
	// Output:
	// 2 eighths
	// 1 dotted crotchet
}

// Half a tenth is rounded up, and carried over: 59.96 s is a minute.
func TestTenths(t *testing.T) {
	for _, c := range []struct{ num, den, want int64 }{
		{0, 1, 0}, {1, 20, 1}, {49, 1000, 0}, {5996, 100, 600}, {5994, 100, 599}, {300, 11, 273}, {11996, 100, 1200},
	} {
		assert.Equal(t, c.want, beat.Tenths(big.NewRat(c.num, c.den)), "%d/%d s", c.num, c.den)
	}
}

// Seconds to a tenth, as Tenths rounds them; from a minute on with minutes.
func TestInMinutes(t *testing.T) {
	for want, seconds := range map[string]*big.Rat{
		"0.0 s": big.NewRat(0, 1), "13.6 s": big.NewRat(136, 10), "59.9 s": big.NewRat(5994, 100), "1 min 0.0 s": big.NewRat(5996, 100), "2 min 5.0 s": big.NewRat(125, 1),
	} {
		assert.Equal(t, want, beat.InMinutes(seconds))
	}
}

// Spans agree with math/big on all four operations and on order.
func TestSpanAgainstBigRationals(t *testing.T) {
	span := rapid.Custom(func(t *rapid.T) beat.Span {
		return beat.Of(rapid.Int64Range(-1<<20, 1<<20).Draw(t, "num"), rapid.Int64Range(1, 1<<14).Draw(t, "den"))
	})
	rat := func(s beat.Span) *big.Rat { return big.NewRat(s.Num(), s.Den()) }
	rapid.Check(t, func(t *rapid.T) {
		a, b := span.Draw(t, "a"), span.Draw(t, "b")
		assert.Zero(t, rat(a.Add(b)).Cmp(new(big.Rat).Add(rat(a), rat(b))))
		assert.Zero(t, rat(a.Sub(b)).Cmp(new(big.Rat).Sub(rat(a), rat(b))))
		assert.Zero(t, rat(a.Mul(b)).Cmp(new(big.Rat).Mul(rat(a), rat(b))))
		if b.Sign() != 0 {
			assert.Zero(t, rat(a.Over(b)).Cmp(new(big.Rat).Quo(rat(a), rat(b))))
		}
		assert.Equal(t, rat(a).Cmp(rat(b)), a.Cmp(b))
		read, ok := beat.ParseSpan(a.String())
		assert.True(t, ok)
		assert.Equal(t, a, read)
	})
}

// At the corners of what the reader accepts nothing wraps round: the longest
// time is 1,000,000 bars of 64 whole notes on the finest grid.
func TestBoundsHoldAtTheCorners(t *testing.T) {
	longest := int64(1_000_000) * 64 * int64(beat.MaxGrid)
	assert.Less(t, longest, int64(1)<<42+1<<42, "ticks of the longest piece")
	a := beat.Of(longest, int64(beat.MaxGrid)-1)
	assert.NotPanics(t, func() { a.Add(beat.Of(1, int64(beat.MaxGrid))) })
	assert.Panics(t, func() { beat.Of(1<<62, 3).Add(beat.Of(1<<62, 5)) }, "outside them it says so")
}

// The signs of the note values and of no others: in units of the shortest, 2^k
// and 3·2^k have one; 5, 7, 9, 10, 11, 13, 15 need a tie (arithmetic).
func TestNoteValues(t *testing.T) {
	single := map[int64]bool{1: true, 2: true, 3: true, 4: true, 6: true, 8: true, 12: true}
	for units := int64(1); units <= 12; units++ {
		_, _, ok := beat.NoteValue(beat.Of(units, 8))
		assert.Equal(t, single[units], ok, "%d eighths", units)
	}
	for _, c := range []struct {
		span       beat.Span
		us, uk     string
		power, dot int
	}{
		{beat.Of(1, 4), "quarter", "crotchet", 2, 0},
		{beat.Of(3, 16), "dotted eighth", "dotted quaver", 3, 1},
		{beat.Of(1, 64), "sixty-fourth", "hemidemisemiquaver", 6, 0},
		{beat.Of(3, 2), "dotted whole", "dotted semibreve", 0, 1},
		{beat.Of(3, 256), "dotted 128th", "dotted semihemidemisemiquaver", 7, 1}, // the shortest with a dot
	} {
		name, _ := beat.NoteName(c.span, beat.American)
		assert.Equal(t, c.us, name)
		back, ok := beat.ValueNamed(name, beat.American)
		assert.True(t, ok)
		assert.Equal(t, c.span, back)
		name, _ = beat.NoteName(c.span, beat.British)
		assert.Equal(t, c.uk, name)
		power, dots, _ := beat.NoteValue(c.span)
		assert.Equal(t, []int{c.power, c.dot}, []int{power, dots})
	}
	for _, none := range []beat.Span{{}, beat.Of(1, 256), beat.Of(3, 512), beat.Of(2, 1), beat.Of(-1, 4)} {
		power, dots, ok := beat.NoteValue(none)
		assert.Equal(t, []any{0, 0, false}, []any{power, dots, ok}, "%v", none)
	}
}

func TestGrid(t *testing.T) {
	grid, ok := beat.Grid(4).Including(12)
	assert.True(t, ok)
	assert.Equal(t, beat.Grid(12), grid)
	none, ok := grid.Including(13 * 11 * 7 * 5 * 16)
	assert.False(t, ok, "past 16,383 divisions a quarter")
	assert.Zero(t, none)
	ticks, ok := grid.Ticks(beat.Of(5, 12))
	assert.True(t, ok)
	assert.Equal(t, beat.Time(5), ticks)
	ticks, ok = grid.Ticks(beat.Of(1, 8))
	assert.False(t, ok)
	assert.Zero(t, ticks)
}

// The signed remainder lies in (-m/2, m/2]; exactly half is late.
func TestSigned(t *testing.T) {
	for _, c := range []struct{ t, m, want beat.Time }{
		{15, 9, -3}, {7, 8, -1}, {12, 8, 4}, {33, 6, 3}, {-1, 7, -1}, {9, 8, 1},
	} {
		assert.Equal(t, c.want, c.t.Signed(c.m), "%d against %d", c.t, c.m)
	}
}

func TestPulse(t *testing.T) {
	p := beat.Pulse{Base: beat.Of(1, 8), Actual: 4, Normal: 3}
	assert.Equal(t, beat.Of(3, 32), p.Span())
	assert.Equal(t, beat.Of(3, 8), p.Container())
	assert.Equal(t, "1/8 in 4:3", p.String())
	assert.Equal(t, beat.Plain(beat.Of(3, 32)).Span(), p.Span(), "the same time in another written form")
	assert.True(t, beat.Pulse{Base: beat.Of(1, 8), Actual: 2, Normal: 3}.IsTuplet(), "a duplet")
	assert.False(t, beat.Plain(beat.Of(1, 8)).IsTuplet())
}

func TestMixed(t *testing.T) {
	for want, s := range map[string]beat.Span{"0": {}, "2": beat.Of(2, 1), "1 1/2": beat.Of(3, 2), "1/3": beat.Of(1, 3),
		"-2 1/2": beat.Of(-5, 2), "-1/2": beat.Of(-1, 2), "12 1/4": beat.Of(49, 4)} {
		assert.Equal(t, want, s.Mixed())
	}
}
