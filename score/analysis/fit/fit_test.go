package fit_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/score/analysis/fit"
)

// Loops cut by a section's end; second computation.
func TestTruncate(t *testing.T) {
	for _, c := range []struct {
		loop                []int
		total, cycles, left int
		played              []int
	}{
		{[]int{3}, 8, 2, 2, []int{3, 3, 2}},
		{[]int{3}, 16, 5, 1, []int{3, 3, 3, 3, 3, 1}},
		{[]int{3}, 32, 10, 2, []int{3, 3, 3, 3, 3, 3, 3, 3, 3, 3, 2}},
		{[]int{3, 2, 2}, 32, 4, 4, []int{3, 2, 2, 3, 2, 2, 3, 2, 2, 3, 2, 2, 3, 1}},
		{[]int{2, 2, 3}, 32, 4, 4, []int{2, 2, 3, 2, 2, 3, 2, 2, 3, 2, 2, 3, 2, 2}},
		{[]int{3, 2, 3, 2}, 32, 3, 2, []int{3, 2, 3, 2, 3, 2, 3, 2, 3, 2, 3, 2, 2}},
		{[]int{3, 2, 4}, 31, 3, 4, []int{3, 2, 4, 3, 2, 4, 3, 2, 4, 3, 1}},
		{[]int{3, 2}, 16, 3, 1, []int{3, 2, 3, 2, 3, 2, 1}},
	} {
		got := fit.Truncate(c.loop, c.total)
		assert.Equal(t, c.cycles, got.Cycles, c)
		assert.Equal(t, c.left, got.Left, c)
		assert.Equal(t, c.played, fit.Played(c.loop, c.total), c)
	}
	assert.Equal(t, fit.Cut{Cycles: 4, Left: 4, Group: 2, Kept: 1, Of: 2}, fit.Truncate([]int{3, 2, 2}, 32))
	assert.True(t, fit.Truncate([]int{3, 2, 2}, 32).Inside())
	assert.False(t, fit.Truncate([]int{2, 2, 3}, 32).Inside(), "the final 3 falls away whole")
	assert.Equal(t, fit.Cut{Cycles: 5}, fit.Truncate([]int{3, 2}, 25))
}

// 3s filled up to 16 by stretching the last are 3+3+3+3+4, a Euclidean rhythm
// (Toussaint 2005).
func TestExtend(t *testing.T) {
	got, ok := fit.Extended([]int{3}, 16)
	assert.True(t, ok)
	assert.Equal(t, []int{3, 3, 3, 3, 4}, got)
	_, ok = fit.Extended([]int{2, 2, 3}, 32)
	assert.False(t, ok, "no group is cut")
	_, ok = fit.Extended([]int{8}, 5)
	assert.False(t, ok, "nothing before it")
}

func TestChanges(t *testing.T) { // by hand: 64 = 9·7 + 3 - 2 = 10·7 - 3 - 3 = 8·7 + 3 + 3 + 2
	got := fit.Changes([]int{3, 2, 2}, 64)
	assert.Equal(t, []fit.Change{
		{Cycles: 9, Twos: -1, Threes: 1},
		{Cycles: 10, Threes: -2},
		{Cycles: 8, Twos: 1, Threes: 2},
		{Cycles: 11, Twos: -2, Threes: -3},
	}, got)
	for _, c := range got {
		assert.Equal(t, 64, 7*c.Cycles+c.Pulses())
	}
	assert.Equal(t, fit.Change{Cycles: 3}, fit.Changes([]int{3, 2}, 15)[0], "an exact fit")
	assert.Equal(t, []fit.Change{{Cycles: 1, Twos: 1}}, fit.Changes([]int{5}, 7), "there is no 2 or 3 to leave out")
	assert.Equal(t, []fit.Change{{Cycles: 1, Twos: 1}, {Cycles: 2, Twos: -1}, {Cycles: 3, Twos: -3}},
		fit.Changes([]int{2, 2}, 6), "no 3 to leave out")
}

// Every answer is checked against all small combinations.
func TestChangesAreSmallest(t *testing.T) {
	for _, loop := range [][]int{{3, 2, 2}, {2, 2}, {3, 3}, {5}, {3, 2, 3, 2}} {
		length := 0
		for _, g := range loop {
			length += g
		}
		for total := length; total < 60; total++ {
			for _, c := range fit.Changes(loop, total) {
				best := 1 << 30
				for a := -30; a <= 30; a++ {
					for b := -30; b <= 30; b++ {
						if 2*a+3*b == total-c.Cycles*length && a >= -c.Cycles*tally(loop, 2) && b >= -c.Cycles*tally(loop, 3) {
							best = min(best, max(a, -a)+max(b, -b))
						}
					}
				}
				assert.Equal(t, best, c.Size(), "%v in %d: %+v", loop, total, c)
			}
		}
	}
}

func tally(loop []int, size int) int {
	n := 0
	for _, g := range loop {
		if g == size {
			n++
		}
	}
	return n
}

func TestClosings(t *testing.T) { // second computation
	for _, c := range []struct {
		n                    int
		inclusive, exclusive []fit.Closing
	}{
		{7, []fit.Closing{{2, 1}}, []fit.Closing{{1, 2}}},
		{8, []fit.Closing{{3, 0}, {1, 3}}, []fit.Closing{{2, 1}}},
		{10, []fit.Closing{{3, 1}, {1, 4}}, []fit.Closing{{2, 2}}},
		{12, []fit.Closing{{3, 2}, {1, 5}}, []fit.Closing{{4, 0}, {2, 3}}},
		{14, []fit.Closing{{5, 0}, {3, 3}, {1, 6}}, []fit.Closing{{4, 1}, {2, 4}}},
		{16, []fit.Closing{{5, 1}, {3, 4}, {1, 7}}, []fit.Closing{{4, 2}, {2, 5}}},
	} {
		assert.Equal(t, c.inclusive, fit.Closings(c.n, fit.Inclusive), "%d", c.n)
		assert.Equal(t, c.exclusive, fit.Closings(c.n, fit.Exclusive), "%d", c.n)
		for _, x := range c.exclusive {
			if in, ok := x.Inclusive(); ok {
				assert.Contains(t, c.inclusive, in)
			}
		}
	}
}

// n is how far after the beginning the landing stroke falls.
func TestPublishedClosings(t *testing.T) {
	for _, c := range []struct {
		source   string
		n        int
		counting fit.Counting
		want     fit.Closing
	}{
		{"second-hand: common tihai forms: 16, one to one, 17 units", 16, fit.Inclusive, fit.Closing{Statement: 5, Gap: 1}},
		{"second-hand: no gap, 33 half units", 32, fit.Inclusive, fit.Closing{Statement: 11, Gap: 0}},
		{"second-hand: nine statements of 7 quarter units as three of 21, 65 units", 64, fit.Inclusive, fit.Closing{Statement: 21, Gap: 1}},
		{"second-hand: 16, landing stroke extra", 16, fit.Exclusive, fit.Closing{Statement: 4, Gap: 2}},
		{"encyclopedia article on the tihai: the form that ends one beat early is 16 long", 16, fit.Exclusive, fit.Closing{Statement: 4, Gap: 2}},
		{"encyclopedia article on the tihai: its second form", 16, fit.Exclusive, fit.Closing{Statement: 2, Gap: 5}},
		{"second-hand: 8, landing stroke extra", 8, fit.Exclusive, fit.Closing{Statement: 2, Gap: 1}},
		{"second-hand: length 6 from the second beat of a cycle of 7", 6, fit.Exclusive, fit.Closing{Statement: 2, Gap: 0}},
		{"second-hand: from beat 9 of 16", 8, fit.Exclusive, fit.Closing{Statement: 2, Gap: 1}},
		{"second-hand: mora forms of 29", 28, fit.Inclusive, fit.Closing{Statement: 9, Gap: 1}},
		{"second-hand: mora forms of 29", 28, fit.Inclusive, fit.Closing{Statement: 7, Gap: 4}},
		{"second-hand: end of a korvai in 32, from unit 14", 32 - 14, fit.Inclusive, fit.Closing{Statement: 5, Gap: 2}},
	} {
		assert.Contains(t, fit.Closings(c.n, c.counting), c.want, c.source)
	}
	// Exclusive (4,2) is inclusive (5,1), (2,1) is (3,0).
	in, ok := fit.Closing{Statement: 4, Gap: 2}.Inclusive()
	assert.True(t, ok)
	assert.Equal(t, fit.Closing{Statement: 5, Gap: 1}, in)
	_, ok = fit.Closing{Statement: 4, Gap: 0}.Inclusive()
	assert.False(t, ok)
}

// Four syllables a beat over n beats, T = 4n+1 (second-hand): with S
// syllables and V gaps, 3(S+1) + 2V = T; the first formula has the shortest gap.
func TestShortestGap(t *testing.T) {
	for n := 1; n <= 16; n++ {
		total := 4*n + 1
		s, v := total/3-1, 0
		switch total % 3 {
		case 1:
			s, v = total/3-2, 2
		case 2:
			v = 1
		}
		if s < 0 {
			continue
		}
		assert.Equal(t, fit.Closing{Statement: s + 1, Gap: v}, fit.Closings(4*n, fit.Inclusive)[0], "%d beats", n)
	}
	assert.Empty(t, fit.Closings(1, fit.Inclusive))
}

func TestAfter(t *testing.T) { // by hand: 64 = 5·7 + 3·7 + 2·4 = 4·7 + … is odd
	assert.Equal(t, []fit.Lead{{5, fit.Closing{7, 4}}}, fit.After(7, 64))
	assert.Equal(t, []fit.Lead{{4, fit.Closing{7, 0}}, {2, fit.Closing{7, 7}}}, fit.After(7, 49))
	assert.Empty(t, fit.After(7, 20))
	assert.True(t, slices.IsSortedFunc(fit.After(5, 100), func(a, b fit.Lead) int { return a.Closing.Gap - b.Closing.Gap }))
}
