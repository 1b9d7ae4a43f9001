package score

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/score/beat"
	"tieover/score/process"
)

// enters and offset add up, a negative offset begins inside cycle 1, and a cut
// at the entry itself is no reason to begin anew.
func TestEntryWithOffset(t *testing.T) {
	l := layer("b", groups(3, 2))
	l.EnterAt, l.Offset = &Place{Kind: AtBar, N: 2}, 2
	s := in(PlainSignature(4, 8), barsOf(4), layer("a", groups(4)), l)
	settle(t, s)
	assert.Equal(t, []int{6, 9, 11, 14}, onsets(t, s, 1))

	l.Offset, l.Loop, l.CutEvery = -3, CutBars, 1
	s = in(PlainSignature(4, 8), barsOf(4), layer("a", groups(4)), l)
	settle(t, s)
	assert.Equal(t, []int{4, 6, 8, 11, 12, 15}, onsets(t, s, 1), "the 2 of the cycle begun at 1, then a whole 3+1 in each bar, the first cut at 8")
	first := slices.Collect(s.Cycles(1))[0]
	assert.Equal(t, 1, eighths(t, first.Start))
	assert.Equal(t, 1, first.Index)

	l = layer("b", groups(3, 2))
	l.EnterAt, l.Offset, l.Loop = &Place{Kind: AtRealignment, N: 1}, -3, CutRealignment
	s = in(PlainSignature(4, 8), LengthRule{Kind: Realignments, N: 2}, layer("a", groups(4)), layer("c", groups(3)), l)
	settle(t, s)
	assert.Equal(t, []int{12, 14, 17, 19, 22}, onsets(t, s, 2))
}

// A line's touches are dealt to its notes, not to its rests.
func TestTouchesOfALine(t *testing.T) {
	l := layer("a")
	l.Line = []LineNote{{Length: 4, Tones: Chord{{}}}, {Length: 4}, {Length: 4, Tones: Chord{{}}}, {Length: 4, Tones: Chord{{}}}}
	l.Touches = []Touch{Plain, Ghost}
	s := in(PlainSignature(4, 4), barsOf(2), l)
	settle(t, s)
	var got []Touch
	for _, a := range s.Attacks(0) {
		got = append(got, a.Touch)
	}
	assert.Equal(t, []Touch{Plain, Ghost, Plain}, got)
}

// enters: cycle 3 is when the layer's own third cycle would have begun; its
// numbers, processes and series begin with the entry.
func TestEntryAtACycle(t *testing.T) {
	l := layer("b", groups(3, 2))
	l.EnterAt = &Place{Kind: AtCycle, N: 3}
	l.Process = []Process{{Rule: process.Rule{Kind: process.Rotate, By: 1, After: 1}}}
	l.Series, l.Restart = [][]Chord{letters("CDE")}, RestartNever
	s := in(PlainSignature(4, 8), barsOf(5), layer("a", groups(4)), l)
	settle(t, s)
	assert.Equal(t, []int{10, 13, 15, 17}, onsets(t, s, 1))
	assert.Equal(t, "CDEC", sung(s, 1))
	assert.Equal(t, 1, slices.Collect(s.Cycles(1))[0].Index)
}

// Cycles of 6 that begin one late are at 1, 7 and 13, begun four early at -4, 2
// and 8: at the entry the offset is not counted again. One begun before the
// section is joined where the section begins.
func TestEntryAtACycleWithOffset(t *testing.T) {
	for _, c := range []struct {
		offset, cycle int64
		want          []int
		first         int
	}{
		{1, 3, []int{13, 16, 19, 22}, 13},
		{1, 1, []int{1, 4, 7, 10, 13, 16, 19, 22}, 1},
		{-4, 3, []int{8, 11, 14, 17, 20, 23}, 8},
		{-4, 1, []int{2, 5, 8, 11, 14, 17, 20, 23}, -4},
		{-13, 2, []int{2, 5, 8, 11, 14, 17, 20, 23}, -7},
	} {
		l := layer("b", groups(3, 3))
		l.EnterAt, l.Offset = &Place{Kind: AtCycle, N: c.cycle}, c.offset
		s := in(PlainSignature(4, 8), barsOf(6), layer("a", groups(4)), l)
		settle(t, s)
		assert.Equal(t, c.want, onsets(t, s, 1), "offset %d, cycle %d", c.offset, c.cycle)
		assert.Equal(t, c.first, eighths(t, slices.Collect(s.Cycles(1))[0].Start), "offset %d, cycle %d", c.offset, c.cycle)
	}
}

// pulse 17 is after 16 of the section's pulses, bar 3 beat 2 one beat into it.
func TestPlacesOfEntry(t *testing.T) {
	for at, want := range map[Place]int{
		{Kind: AtPulse, N: 17}:       16,
		{Kind: AtBar, N: 3}:          16,
		{Kind: AtBar, N: 3, Beat: 2}: 18,
		{Kind: AtCycle, N: 2}:        5,
		{Kind: AtRealignment, N: 1}:  12,
	} {
		l := layer("c", groups(10))
		l.Pulse, l.EnterAt = beat.Plain(beat.Of(1, 16)), &at
		s := in(PlainSignature(4, 4), barsOf(4), layer("a", groups(4)), layer("b", groups(6)), l)
		settle(t, s)
		assert.Equal(t, want, onsets(t, s, 2)[0], "%s", at)
	}
}

// leaves is the first silent moment: what sounds is cut there.
func TestLeaving(t *testing.T) {
	l := layer("b", groups(3))
	l.LeaveAt = &Place{Kind: AtBar, N: 3}
	s := in(PlainSignature(4, 8), barsOf(4), layer("a", groups(4)), l)
	settle(t, s)
	assert.Equal(t, []int{0, 3, 6}, onsets(t, s, 1))
	assert.Equal(t, []int{3, 3, 2}, lengths(t, s, 1))
	cycles := slices.Collect(s.Cycles(1))
	assert.Equal(t, CutByLeaving, cycles[2].Cut)
}

// The barlines of the section count, whatever the entry; the cycle after a cut
// is the next one and the processes have moved on.
func TestCutsCountFromTheSection(t *testing.T) {
	l := layer("b", groups(3, 2))
	l.EnterAt = &Place{Kind: AtBar, N: 2}
	l.Loop, l.CutEvery = CutBars, 2
	l.Process = []Process{{Rule: process.Rule{Kind: process.Rotate, By: 1, After: 1}}}
	s := in(PlainSignature(4, 8), barsOf(6), layer("a", groups(4)), l)
	settle(t, s) // enters at 4, cut at 8 and 16
	assert.Equal(t, []int{4, 7, 8, 10, 13, 16, 18, 21}, onsets(t, s, 1), "3+1 | 2+3, 3 | 2+3, 3")
	assert.Equal(t, []int{3, 1, 2, 3, 3, 2, 3, 3}, lengths(t, s, 1))
	var cuts []Cut
	for c := range s.Cycles(1) {
		cuts = append(cuts, c.Cut)
	}
	assert.Equal(t, []Cut{CutByLoop, NotCut, CutByLoop, NotCut, CutByLoop}, cuts)
}

// A silent bar of 6 eighths over a loop of 7 is 5 pulses of cycle 1 (from 2 to
// 7) and 1 of cycle 2, whatever the groups it silences.
func TestASilentBarHasItsPulses(t *testing.T) {
	l := layer("a", groups(2, 5))
	l.Offset = 4
	l.Except = []Exception{{Bar: 2, Rest: true}}
	s := in(PlainSignature(3, 4), LengthRule{Kind: Bars, N: 3}, l)
	settle(t, s)
	var sizes [][]int
	for c := range s.Cycles(0) {
		var of []int
		for _, g := range c.Groups {
			if g.Blank {
				of = append(of, g.Size)
			}
		}
		sizes = append(sizes, of)
	}
	assert.Equal(t, [][]int{{5}, {1}}, sizes[:2])
}

// A cycle that is used up just where the section ends, or the layer leaves, is no
// mistake: of 8, 6, 4 and 2 eighths the last ends at 20. A bar longer it is one.
func TestACycleIsUsedUpAtTheEnd(t *testing.T) {
	l := layer("a", groups(8))
	l.Process = []Process{{Rule: process.Rule{Kind: process.Grow, Group: 1, By: -2, After: 1}}}
	s := in(PlainSignature(10, 8), barsOf(2), l)
	settle(t, s)
	assert.Equal(t, []int{0, 8, 14, 18}, onsets(t, s, 0))

	l.LeaveAt = &Place{Kind: AtBar, N: 3}
	s = in(PlainSignature(10, 8), barsOf(3), layer("b", groups(2)), l)
	settle(t, s)
	assert.Equal(t, []int{0, 8, 14, 18}, onsets(t, s, 1))

	l.LeaveAt = nil
	problems := refused(in(PlainSignature(10, 8), barsOf(3), l))
	if assert.Len(t, problems, 1) {
		assert.Equal(t, `layer "a", cycle 5: no group has a pulse left to give`, problems[0].Text)
	}
}
