package score

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/score/beat"
	"tieover/score/process"
)

var fiveFour = PlainSignature(5, 4)

// The worked example of the chart: 10 eighths against 12 in 5/4, six bars.
func TestTwoLayersRealignAfterSixtyEighths(t *testing.T) {
	s := in(fiveFour, LengthRule{Kind: Realignments, N: 1}, layer("Marimba", groups(3, 2, 2, 3)), layer("Vibes", groups(3, 3, 2, 2, 2)))
	settle(t, s)

	assert.Equal(t, 60, eighths(t, s.Length))
	assert.Equal(t, 6, s.BarCount())
	assert.Equal(t, []int{0, 60}, together(t, s))
	assert.Len(t, onsets(t, s, 0), 24)
	assert.Len(t, onsets(t, s, 1), 25)

	var both []int
	all := 0
	for at := range s.Moments() {
		all++
		if len(at.Layers) == 2 {
			both = append(both, eighths(t, at.Time))
		}
	}
	assert.Equal(t, 42, all)
	assert.Equal(t, []int{0, 3, 10, 15, 20, 27, 30}, both)

	last := slices.Collect(s.Realignments())[1]
	assert.Equal(t, Realignment{Index: 1, Time: 360, OnBarline: true, Apart: true, Cycles: []int{7, 6}}, last)
	assert.Equal(t, "150/11", s.Seconds(s.Length).String(), "60 eighths at 132 quarters a minute: 30·60/132 s")
}

// By hand: in 9/8 a cycle of 9 eighths against one of 15 realigns after 5 and 3
// cycles, 5 bars.
func TestNineAgainstFifteen(t *testing.T) {
	s := in(PlainSignature(9, 8), LengthRule{Kind: Realignments, N: 1}, layer("a", groups(2, 2, 2, 3)), layer("b", groups(3, 3, 3, 2, 4)))
	settle(t, s)
	assert.Equal(t, 5, s.BarCount())
	assert.Equal(t, []int{6, 4}, slices.Collect(s.Realignments())[1].Cycles, "5 and 3 cycles are over")
}

func TestProcessesByHand(t *testing.T) {
	grow := Process{Rule: process.Rule{Kind: process.Grow, Group: 1, By: 1, From: 2, After: 1}}
	fiveCycles := LengthRule{Kind: Pulses, N: 35}
	for _, c := range []struct {
		name   string
		set    func(l *Layer)
		sizes  [][]int
		onsets []int
	}{
		{"grow from group 2, which is used up, then group 3 gives", func(l *Layer) { l.Process = []Process{grow} },
			[][]int{{3, 2, 2}, {4, 1, 2}, {5, 2}, {6, 1}, {7}},
			[]int{0, 3, 5, 7, 11, 12, 14, 19, 21, 27, 28}},
		{"shrink: group 1 gives to group 2", func(l *Layer) {
			l.Process = []Process{{Rule: process.Rule{Kind: process.Grow, Group: 1, By: -1, From: 2, After: 1}}}
		},
			[][]int{{3, 2, 2}, {2, 3, 2}, {1, 4, 2}, {5, 2}, {5, 2}}, nil},
		{"rotate one group a cycle", func(l *Layer) { l.Process = []Process{{Rule: process.Rule{Kind: process.Rotate, By: 1, After: 1}}} },
			[][]int{{3, 2, 2}, {2, 2, 3}, {2, 3, 2}, {3, 2, 2}, {2, 2, 3}},
			[]int{0, 3, 5, 7, 9, 11, 14, 16, 19, 21, 24, 26, 28, 30, 32}},
		{"retrograde on even cycles", func(l *Layer) { l.Process = []Process{{Rule: process.Rule{Kind: process.Retrograde, After: 2}}} },
			[][]int{{3, 2, 2}, {2, 2, 3}, {3, 2, 2}, {2, 2, 3}, {3, 2, 2}},
			[]int{0, 3, 5, 7, 9, 11, 14, 17, 19, 21, 23, 25, 28, 31, 33}},
		{"grow after each two passes", func(l *Layer) {
			l.Process = []Process{{Rule: process.Rule{Kind: process.Grow, Group: 1, By: 1, From: 2, After: 2}}}
		},
			[][]int{{3, 2, 2}, {3, 2, 2}, {4, 1, 2}, {4, 1, 2}, {5, 2}}, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			l := layer("a", groups(3, 2, 2))
			c.set(l)
			s := in(PlainSignature(7, 8), fiveCycles, l)
			if c.name[:6] == "shrink" {
				l.Process[0].Hold = true // after cycle 4 group 1 is gone
			}
			settle(t, s)
			assert.Equal(t, c.sizes, sizesOf(s, 0))
			if c.onsets != nil {
				assert.Equal(t, c.onsets, onsets(t, s, 0))
			}
		})
	}
}

// A cycle that gets longer each time: 3+2, 4+2, 5+2, 6+2, 7+2.
func TestGrowingCycle(t *testing.T) {
	l := layer("a", groups(3, 2))
	l.Process = []Process{{Rule: process.Rule{Kind: process.Grow, Group: 1, By: 1, After: 1}}}
	s := in(PlainSignature(4, 4), LengthRule{Kind: Pulses, N: 35}, l)
	settle(t, s)
	assert.Equal(t, [][]int{{3, 2}, {4, 2}, {5, 2}, {6, 2}, {7, 2}}, sizesOf(s, 0))
	assert.Equal(t, []int{0, 3, 5, 9, 11, 16, 18, 24, 26, 33}, onsets(t, s, 0))
}

// Growth inside a constant cycle of 7 against 5 eighths realigns every 35 and
// starts over there: 3+2+2, 4+1+2, 5+2, 6+1, 7, then 3+2+2 again.
func TestGrowthStartsOverAtTheRealignment(t *testing.T) {
	l := layer("a", groups(3, 2, 2))
	l.Process = []Process{{Rule: process.Rule{Kind: process.Grow, Group: 1, By: 1, From: 2, After: 1}}}
	l.Until = UntilRealignment
	s := in(PlainSignature(5, 8), LengthRule{Kind: Realignments, N: 2}, l, layer("b", groups(5)))
	settle(t, s)
	assert.Equal(t, []int{0, 35, 70}, together(t, s))
	round := [][]int{{3, 2, 2}, {4, 1, 2}, {5, 2}, {6, 1}, {7}}
	assert.Equal(t, append(slices.Clone(round), round...), sizesOf(s, 0))
	var numbers []int
	for c := range s.Cycles(0) {
		numbers = append(numbers, c.Number)
	}
	assert.Equal(t, []int{1, 2, 3, 4, 5, 1, 2, 3, 4, 5}, numbers)
}

func TestDonorsRunOut(t *testing.T) {
	l := layer("Tide bell", groups(3, 2, 2))
	l.Process = []Process{{Rule: process.Rule{Kind: process.Grow, Group: 1, By: 1, From: 2, After: 1}}}
	problems := refused(in(PlainSignature(7, 8), LengthRule{Kind: Bars, N: 6}, l))
	require.Len(t, problems, 1)
	assert.Equal(t, `layer "Tide bell", cycle 6: no group has a pulse left to give`, problems[0].Text)
}

// Held 3+2+2 one pulse ahead each cycle: the 3 begins at 6 of cycle 2 and rings
// into cycle 3, whose 2s stand at 1 and 3 (3-2 and 5-2) and its 3 at 5.
func TestShiftRingsOverTheEdge(t *testing.T) {
	l := layer("a", groups(3, 2, 2))
	l.Process = []Process{{Rule: process.Rule{Kind: process.Shift, By: -1, After: 1}}}
	s := in(PlainSignature(7, 8), LengthRule{Kind: Bars, N: 3}, l)
	settle(t, s)
	assert.Equal(t, []int{0, 3, 5, 9, 11, 13, 15, 17, 19}, onsets(t, s, 0))
	assert.Equal(t, []int{3, 2, 2, 2, 2, 2, 2, 2, 2}, lengths(t, s, 0),
		"the 3 at 13 is stopped by the attack at 15, the last by the end")
	var heads []int
	for c := range s.Cycles(0) {
		heads = append(heads, eighths(t, c.Head))
	}
	assert.Equal(t, []int{0, 6, 5}, heads)
}

// Rows of the table of truncations, second computation: the last group is
// cut to what is left.
func TestCutLoops(t *testing.T) {
	for _, c := range []struct {
		loop   []int
		bars   int
		length []int
	}{
		{[]int{3}, 1, []int{3, 3, 2}},
		{[]int{3}, 2, []int{3, 3, 3, 3, 3, 1}},
		{[]int{3, 2, 2}, 4, []int{3, 2, 2, 3, 2, 2, 3, 2, 2, 3, 2, 2, 3, 1}},
		{[]int{2, 2, 3}, 4, []int{2, 2, 3, 2, 2, 3, 2, 2, 3, 2, 2, 3, 2, 2}},
		{[]int{3, 2, 3, 2}, 4, []int{3, 2, 3, 2, 3, 2, 3, 2, 3, 2, 3, 2, 2}},
		{[]int{3, 2}, 2, []int{3, 2, 3, 2, 3, 2, 1}},
	} {
		l := layer("a", groups(c.loop...))
		l.Loop, l.CutEvery = CutBars, c.bars
		s := in(PlainSignature(4, 4), LengthRule{Kind: Bars, N: int64(2 * c.bars)}, l)
		settle(t, s)
		assert.Equal(t, append(slices.Clone(c.length), c.length...), lengths(t, s, 0))
	}
}

func TestCutIsListedOnlyWhereACycleIsShortened(t *testing.T) {
	l := layer("a", groups(3, 2, 3))
	l.Loop, l.CutEvery = CutBars, 2
	s := in(PlainSignature(4, 4), LengthRule{Kind: Bars, N: 4}, l)
	settle(t, s)
	for c := range s.Cycles(0) {
		assert.Equal(t, NotCut, c.Cut, "8 fits the bar; cycle %d", c.Index)
	}
}

func TestNegativeOffsetStartsInsideTheCycle(t *testing.T) {
	l := layer("a", groups(3, 2, 2))
	l.Offset = -4
	s := in(PlainSignature(7, 8), LengthRule{Kind: Bars, N: 1}, l)
	settle(t, s)
	assert.Equal(t, []int{1, 3, 6}, onsets(t, s, 0))
	first := slices.Collect(s.Cycles(0))[0]
	assert.Equal(t, beat.Time(-24), first.Start)
}

// Blank groups take no pitch; with restart: never the series runs on, so 3
// pitches on 4 attacks a cycle come home after 3 cycles.
func TestColorAgainstTalea(t *testing.T) {
	l := layer("a", Pattern{Groups: []Item{{Size: 2}, {Size: 1, Blank: true}, {Size: 2}, {Size: 1}, {Size: 1}}})
	c, d, e := Tone{Step: 'C', Octave: 4}, Tone{Step: 'D', Octave: 4}, Tone{Step: 'E', Octave: 4}
	l.Series = [][]Chord{{{c}, {d}, {e}}}
	l.Restart = RestartNever
	s := in(PlainSignature(7, 8), LengthRule{Kind: Returns, N: 1}, l)
	settle(t, s)
	assert.Equal(t, 3, s.BarCount())
	var names []string
	for _, a := range s.Attacks(0) {
		names = append(names, a.Tones.String())
	}
	assert.Equal(t, []string{"C4", "D4", "E4", "C4", "D4", "E4", "C4", "D4", "E4", "C4", "D4", "E4"}, names)
}

func TestOffsetsThatNeverMeet(t *testing.T) {
	b := layer("Barge", groups(3, 3, 2))
	b.Offset = 2
	problems := refused(in(PlainSignature(4, 4), LengthRule{Kind: Realignments, N: 1}, layer("Lock", groups(3, 3, 2)), b))
	require.Len(t, problems, 1)
	assert.Equal(t, `layers "Lock" and "Barge" never begin together: they stay 2 pulses apart`, problems[0].Text)

	b = layer("Barge", groups(8, 7))
	b.Offset = 3
	s := in(PlainSignature(9, 8), LengthRule{Kind: Realignments, N: 1}, layer("Lock", groups(3, 3, 3)), b)
	settle(t, s)
	assert.Equal(t, []int{18}, together(t, s), "3 + 15 = 2·9, and no realignment at the start")
}

func TestTooLateIsRefusedWithTheArithmetic(t *testing.T) {
	problems := refused(in(PlainSignature(4, 4), LengthRule{Kind: Realignments, N: 1},
		layer("a", groups(29)), layer("b", groups(31)), layer("c", groups(37))))
	require.Len(t, problems, 1)
	assert.Contains(t, problems[0].Text, "lcm(29, 31, 37) = 33,263 pulses = 4,157 bars and 7 pulses")
}

// Length changes: 5, 6, 7, 8 … against bars of 5/8 with a reset at each
// realignment. Heads of the grower: 0 5 11 18 26 35; multiples of 5 among them:
// 5 (and then it starts over: 5+5 = 10, …).
func TestWalkedRealignmentsResetAtOnce(t *testing.T) {
	l := layer("a", groups(3, 2))
	l.Process = []Process{{Rule: process.Rule{Kind: process.Grow, Group: 1, By: 1, After: 1}}}
	l.Until = UntilRealignment
	s := in(PlainSignature(5, 8), LengthRule{Kind: Bars, N: 3}, l)
	settle(t, s)
	assert.True(t, s.Together().Walked)
	assert.Equal(t, []int{0, 5, 10, 15}, together(t, s))
	assert.Equal(t, [][]int{{3, 2}, {3, 2}, {3, 2}}, sizesOf(s, 0))
}

func TestLandStrikesEachHeadOnceMore(t *testing.T) {
	s := in(fiveFour, LengthRule{Kind: Realignments, N: 1}, layer("a", groups(3, 2, 2, 3)), layer("b", groups(3, 3, 2, 2, 2)))
	s.End = Land
	settle(t, s)
	assert.Equal(t, 7, s.BarCount())
	assert.Equal(t, 60, onsets(t, s, 0)[24])
	assert.Equal(t, 60, onsets(t, s, 1)[25])
	bars := slices.Collect(s.Bars())
	assert.True(t, bars[6].Landing)
}

func TestPlaces(t *testing.T) {
	s := in(PlainSignature(7, 8), LengthRule{Kind: Bars, N: 4}, layer("a", groups(7)))
	s.Meter = Meter{{[]Term{{[]int{3, 2, 2}, 8}}}}
	settle(t, s)
	for _, c := range []struct {
		eighths beat.Time
		want    string
	}{{0, "bar 1 beat 1"}, {3, "bar 1 beat 2"}, {4, "bar 1 beat 2½"}, {8, "bar 2 beat 1 +1/8"}, {12, "bar 2 beat 3"}} {
		assert.Equal(t, c.want, s.Where(6*c.eighths).String())
	}
}

// A layer that enters later counts its cycles from its entry, and a bar that
// deviates silences the loop underneath without moving it.
func TestEntryAndException(t *testing.T) {
	b := layer("b", groups(4))
	b.EnterAt = &Place{Kind: AtBar, N: 2}
	b.Except = []Exception{{Bar: 3, Rest: true}}
	s := in(PlainSignature(3, 4), LengthRule{Kind: Bars, N: 4}, layer("a", groups(3)), b)
	settle(t, s)
	assert.Equal(t, []int{6, 10, 18, 22}, onsets(t, s, 1))
	assert.Equal(t, []int{4, 2, 4, 2}, lengths(t, s, 1), "the attack at 10 stops at the silent bar")
}

// An exception that is shorter than its bar leaves the rest of it silent; the
// groups still tile the cycle. 5+5 from 0, bar 2 (8 to 16) plays 2+1.
func TestShortBarExceptionTiles(t *testing.T) {
	l := layer("a", groups(5, 5))
	l.Except = []Exception{{Bar: 2, Pattern: &Pattern{Groups: groups(2, 1).Groups}}}
	s := in(PlainSignature(4, 4), LengthRule{Kind: Bars, N: 3}, l)
	settle(t, s)
	assert.Equal(t, []int{0, 5, 8, 10, 20}, onsets(t, s, 0)[:5])
	for c := range s.Cycles(0) {
		at := beat.Time(0)
		for _, g := range c.Groups {
			assert.Equal(t, at, g.At, "cycle %d: %v", c.Index, c.Groups)
			at = g.At + g.Length
		}
		assert.Equal(t, c.Length, at, "cycle %d", c.Index)
	}
}
