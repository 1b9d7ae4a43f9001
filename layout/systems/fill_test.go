package systems

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
)

// unitSystems reads units, each the bars or gathered bars it stands for: a
// number is a bar of so many signs, r12 a gathered rest of twelve bars; an
// | stands before a realignment, || before a section. It returns how many units
// each system has.
func unitSystems(line ...any) []int {
	var units []unit
	var realigned, section bool
	for _, v := range line {
		u := unit{bar: len(units) + 1, width: 4, realigned: realigned, section: section || len(units) == 0}
		switch v := v.(type) {
		case string:
			realigned, section = v == "|", v == "||"
			continue
		case rest:
			u.silent = int(v)
		case int:
			u.width = v
		}
		realigned, section = false, false
		units = append(units, u)
	}
	var sizes []int
	last := 1
	for s := range Room(32).fill(slices.Values(units)) {
		sizes = append(sizes, s.Bar-last)
		last = s.Bar
	}
	return append(sizes, len(units)+1-last)
}

type rest int

func bars(n, signs int) []any {
	var all []any
	for range n {
		all = append(all, signs)
	}
	return all
}

// Room is for 32 signs; the sums are worked out beside each case.
func TestSystemsOfAPart(t *testing.T) {
	line := func(parts ...any) (all []any) {
		for _, p := range parts {
			if many, ok := p.([]any); ok {
				all = append(all, many...)
			} else {
				all = append(all, p)
			}
		}
		return all
	}
	for _, c := range []struct {
		name string
		line []any
		want []int
	}{
		{"8 bars of 4 signs are 32", bars(8, 4), []int{8}},
		{"9 bars of 4 are 36: two about equal systems, never 8 and a lone bar", bars(9, 4), []int{4, 5}},
		{"20 bars of 4 are 80: three of about 27", bars(20, 4), []int{7, 6, 7}},
		{"three bars of 11 are 33, squeezed into a line and not cut into two and one: 34 can be", bars(3, 11), []int{3}},
		{"three bars of 16 are 48: one has a line of its own", bars(3, 16), []int{1, 2}},
		{"two bars of 20 cannot share a line", bars(2, 20), []int{1, 1}},
		{"short periods share: 3+3 bars of 4 are 24, a third would be 36",
			line(bars(3, 4), "|", bars(3, 4), "|", bars(3, 4), "|", bars(3, 4)), []int{6, 6}},
		{"a realignment starts a system though the line has room for one bar more",
			line(bars(5, 5), "|", bars(6, 5)), []int{5, 6}},
		{"a section starts one, short periods before it or not",
			line(bars(3, 4), "||", bars(3, 4)), []int{3, 3}},
		{"the line ends with the rest, not a bar later: 4+4+4+4+4 are 20, with two bars more 28",
			line(bars(4, 4), rest(9), bars(7, 4)), []int{5, 7}},
		{"pieces are cut up to the end of the rest: 9 bars of 5 and the rest are 49, two of about 25",
			line(bars(9, 5), rest(12), bars(4, 5)), []int{5, 5, 4}},
		{"a rest at once is no line of its own", line(rest(8), rest(4), 4, bars(12, 5), rest(7), rest(8)), []int{6, 5, 6}},
		{"a cue bar before a realignment stays with the rest it ends",
			line(bars(4, 5), rest(7), 4, "|", bars(5, 5)), []int{6, 5}},
		{"rests between realignments share a line", line(rest(8), "|", rest(8), "|", rest(8), "|", bars(4, 4)), []int{7}},
		{"a section that is one rest joins the next", line(bars(4, 6), "||", rest(30), "||", bars(4, 6)), []int{4, 5}},
	} {
		assert.Equal(t, c.want, unitSystems(c.line...), c.name)
	}
}

// However long the part, systems are found while it is read, and each holds two
// bars at least and no more than it has room for.
func TestSystemsOfALongPart(t *testing.T) {
	sizes := unitSystems(bars(10_000, 7)...) // four bars of 7 are 28, five are 35
	sum := 0
	for _, n := range sizes {
		assert.GreaterOrEqual(t, n, 2)
		assert.LessOrEqual(t, n, 4)
		sum += n
	}
	assert.Equal(t, 10_000, sum)
	assert.Len(t, sizes, 2500)
}
