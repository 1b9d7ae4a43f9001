package align

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// numbers are places from distances such as "3 2 2", so many times.
func numbers(parts ...any) []int64 {
	places := []int64{0}
	for i := 0; i < len(parts); i += 2 {
		for range parts[i].(int) {
			for _, word := range strings.Fields(parts[i+1].(string)) {
				var d int64
				fmt.Sscan(word, &d)
				places = append(places, places[len(places)-1]+d)
			}
		}
	}
	return places[:len(places)-1] // how long the last lasts is not known
}

// 3+2+2 with the eighth cycle's … one group of the fourth cycle a pulse long. Loop:
// kind 3, word 3+3+3+3+3 = 15, 24 attacks 9; where log2 24 = 4.6, one exception
// gamma(2) = 3, its kind 2, by one 1, sign 1: 38.6. Bare: 3, sizes 3+3+3, 23 values
// 9 and a bit each: 44.
func TestOneGroupLonger(t *testing.T) {
	res := Numbers(numbers(1, "3 2 2 3 2 2 3 2 2 3 2 3", 4, "3 2 2"), Options{})
	require.NotEmpty(t, res.Readings)
	best := res.Readings[0]
	assert.InDelta(t, 38.6, best.Bits, 0.05)
	assert.InDelta(t, 44, res.Free.Bits, 0.05)
	require.Len(t, best.Segments, 1)
	assert.Equal(t, []int{3, 2, 2}, best.Segments[0].Loop)
	i := slices.IndexFunc(best.Segments[0].Steps, Step.IsException)
	assert.Equal(t, Step{Move: Resized, Attack: 11, Attacks: 1, Pulses: 3, Group: 2, Cycle: 3}, best.Segments[0].Steps[i])
}

// 3+2+2 four times: 3 + 15 + gamma(24) 9 = 27. Then 4s: 3, where log2 24 = 4.6,
// word 5+1+1 = 7: 41.6. Bare: 3, sizes 3+3+5 and three of them 3 = 14, 23 values 9
// and log2 3 each: 62.5.
func TestTwoSegments(t *testing.T) {
	res := Numbers(numbers(4, "3 2 2", 12, "4"), Options{})
	require.NotEmpty(t, res.Readings)
	best := res.Readings[0]
	assert.InDelta(t, 41.6, best.Bits, 0.05)
	assert.InDelta(t, 62.5, res.Free.Bits, 0.05)
	require.Len(t, best.Segments, 2)
	assert.Equal(t, []int{4}, best.Segments[1].Loop)
	assert.Equal(t, 12, best.Segments[1].From)
}

// At 20 ms of scatter and a pulse of 250 ms the density in place is
// 0.99/(20·√2π) and that of a stray tap 0.01/500: 5.7 bits; 60 ms off the Gaussian is
// e^-4.5 of it, 6.4 bits more; 75 ms 9.0, and 100 ms 9.9, where nearly all is the
// stray tap's share.
func TestLateTaps(t *testing.T) {
	bits := func(late float64) float64 {
		n, _ := momentBits(late, 400, 250)
		return n
	}
	assert.InDelta(t, 5.7, bits(0), 0.05)
	assert.InDelta(t, 6.4, bits(60)-bits(0), 0.05)
	assert.InDelta(t, 9.0, bits(75)-bits(0), 0.1)
	assert.InDelta(t, 9.9, bits(100)-bits(0), 0.05)
	// A slip among 40 attacks: log2 40 = 5.3, gamma(2) 3, kind, size and sign 4.
	longer := Segment{Loop: []int{2}}.bits(Step{Move: Resized, Pulses: 3})
	assert.InDelta(t, 12.3, WhereBits(40, 1)+longer, 0.05)
}

// 5+3+3+4+3+3: sizes 5+3+5 and three of them 3, six groups 5, log2 3 each 9.5: 30.5.
// Swung with the tempo given, 3+2+2 takes 15 and 3. 5+4+3: 16, three groups 3, 4.75: 23.8.
func TestSwingAgainstTriplets(t *testing.T) {
	assert.InDelta(t, 30.5, GroupsBits([]int{5, 3, 3, 4, 3, 3}), 0.05)
	assert.InDelta(t, 15, GroupsBits([]int{3, 2, 2}), 0.05)
	assert.InDelta(t, 23.8, GroupsBits([]int{5, 4, 3}), 0.05)
	assert.InDelta(t, 15, GroupsBits([]int{3, 3, 2}), 0.05)
	straight, swung := Options{Quarter: 500}.pulses(nil)[1], Options{Quarter: 500}.pulses(nil)[3]
	assert.Equal(t, Swing{2, 1}, swung.Swing)
	assert.InDelta(t, 3, swung.bits-straight.bits, 1e-9)
	assert.InDelta(t, 4.0/3, swung.span(false, 1), 1e-9, "the first of a pair")
	assert.InDelta(t, 2.0/3, swung.span(true, 1), 1e-9)
	assert.InDelta(t, 10.0/3, swung.span(false, 3), 1e-9)
}
