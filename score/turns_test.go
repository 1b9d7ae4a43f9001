package score

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/score/instrument"
	"tieover/score/process"
)

// A grower takes what the donor has left and then from the next, going round,
// never from itself; a held one stays as it is.
func TestDonorsGoRound(t *testing.T) {
	l := layer("a", groups(2, 3, 2, 1))
	l.Process = []Process{{Rule: process.Rule{Kind: process.Grow, Group: 2, By: 2, From: 4, After: 1}}}
	assert.Equal(t, [][]int{{2, 3, 2, 1}, {1, 5, 2}, {7, 1}, {7, 1}}, func() [][]int {
		l.Process[0].Hold = true
		return sizesOf(play(t, 8, 4, l), 0)
	}(), "4 gives its 1 and group 1 one more; then 1 and one of group 3; then nobody has two")
}

// A group that shrinks away has no attack and takes no pitch.
func TestShrinkingAway(t *testing.T) {
	l := layer("a", groups(2, 3))
	l.Process = []Process{{Rule: process.Rule{Kind: process.Grow, Group: 1, By: -1, From: 2, After: 1, Hold: true}}}
	l.Series = [][]Chord{letters("CD")}
	s := play(t, 5, 4, l)
	assert.Equal(t, [][]int{{2, 3}, {1, 4}, {5}, {5}}, sizesOf(s, 0))
	assert.Equal(t, "CDCDCC", sung(s, 0))
}

// Append makes each cycle a group longer; after: 2 first changes cycle 3.
func TestAppend(t *testing.T) {
	l := layer("a", groups(3))
	l.Process = []Process{{Rule: process.Rule{Kind: process.Append, Size: 2, After: 2}}}
	s := in(PlainSignature(4, 8), LengthRule{Kind: Pulses, N: 23}, l)
	settle(t, s)
	assert.Equal(t, [][]int{{3}, {3}, {3, 2}, {3, 2}, {3, 2, 2}}, sizesOf(s, 0))
}

// Cycles begin with groups 1 to 5 and 1 again although groups 2 and 3 are used
// up on the way: each begins one group further on than the one before it.
func TestRotationAmongGroupsThatAreUsedUp(t *testing.T) {
	l := layer("a", groups(3, 3, 2, 2, 2))
	l.Process = []Process{{Rule: process.Rule{Kind: process.Grow, Group: 1, By: 1, From: 2, After: 1}}, {Rule: process.Rule{Kind: process.Rotate, By: 1, After: 1}}}
	s := in(PlainSignature(4, 4), LengthRule{Kind: Pulses, N: 72}, l)
	settle(t, s)
	assert.Equal(t, [][]int{{3, 3, 2, 2, 2}, {2, 2, 2, 2, 4}, {2, 2, 2, 5, 1}, {2, 2, 6, 2}, {2, 7, 1, 2}, {8, 2, 2}}, sizesOf(s, 0))
}

// on: every 3rd turns cycles 3 and 6; together with a rotation the order is
// turned, then played backwards.
func TestRetrogradeAndRotation(t *testing.T) {
	l := layer("a", groups(1, 2, 3))
	l.Process = []Process{{Rule: process.Rule{Kind: process.Retrograde, After: 3}}}
	assert.Equal(t, [][]int{{1, 2, 3}, {1, 2, 3}, {3, 2, 1}, {1, 2, 3}, {1, 2, 3}, {3, 2, 1}}, sizesOf(play(t, 6, 6, l), 0))
	var changed []bool
	for c := range play(t, 6, 4, l).Cycles(0) {
		changed = append(changed, c.Changed)
	}
	assert.Equal(t, []bool{true, false, true, true}, changed, "the order is read differently in cycle 3, and again in 4")

	l.Process = []Process{{Rule: process.Rule{Kind: process.Rotate, By: 1, After: 1}}, {Rule: process.Rule{Kind: process.Retrograde, After: 2}}}
	assert.Equal(t, [][]int{{1, 2, 3}, {1, 3, 2}, {3, 1, 2}, {3, 2, 1}}, sizesOf(play(t, 6, 4, l), 0))
}

// Backwards the durations are turned, rests too, and each attack still begins
// its own: x=x xx becomes xx xx=.
func TestRetrogradeTurnsDurations(t *testing.T) {
	l := layer("a", groups(3, 2))
	l.Figures = map[int][]Sign{3: []Sign("x=x"), 2: []Sign("x.")}
	l.Process = []Process{{Rule: process.Rule{Kind: process.Retrograde, After: 2}}}
	s := play(t, 5, 2, l)
	assert.Equal(t, []int{0, 2, 3, 6, 7, 8}, onsets(t, s, 0))
	assert.Equal(t, []int{2, 1, 1, 1, 1, 2}, lengths(t, s, 0), ". x | x x=")
}

// A turned box: a hold that a rest now precedes holds nothing; shifted, an
// attack that rings into the holds at the box's start moves as a whole.
func TestTurnedBoxes(t *testing.T) {
	l := layer("a", box("==x.", 2, 2))
	l.Process = []Process{{Rule: process.Rule{Kind: process.Rotate, By: 1, After: 1}}}
	s := play(t, 4, 2, l)
	assert.Equal(t, []int{2, 4}, onsets(t, s, 0))
	assert.Equal(t, []int{1, 1}, lengths(t, s, 0))

	l = layer("a", box("=x.x", 4))
	l.Process = []Process{{Rule: process.Rule{Kind: process.Shift, By: 1, After: 1}}}
	s = play(t, 4, 2, l)
	assert.Equal(t, []int{1, 3, 4, 6}, onsets(t, s, 0))
	assert.Equal(t, []int{1, 1, 2, 1}, lengths(t, s, 0), "=x.x one later is x=x.")
}

// A head on a rest is silent and still realigns.
func TestSilentHeads(t *testing.T) {
	rest := Pattern{Groups: []Item{{Size: 1, Blank: true}, {Size: 2}}}
	s := in(PlainSignature(6, 8), LengthRule{Kind: Realignments, N: 1}, layer("a", rest), layer("b", groups(2)))
	settle(t, s)
	assert.Equal(t, []int{0, 6}, together(t, s))
	assert.Equal(t, []int{0}, slices.Collect(s.Realignments())[1].Silent)

	// Backwards the second cycle ends with the rest and its head is struck.
	back := layer("a", rest)
	back.Process = []Process{{Rule: process.Rule{Kind: process.Retrograde, After: 2}}}
	s = in(PlainSignature(6, 8), LengthRule{Kind: Realignments, N: 1}, back, layer("b", groups(1)))
	settle(t, s)
	assert.Empty(t, slices.Collect(s.Realignments())[1].Silent)
}

// The list of meters begins anew with each section, and any of its barlines
// is one.
func TestMeterRotation(t *testing.T) {
	one := in(PlainSignature(4, 4), barsOf(4), layer("a", groups(8)))
	one.Meter = Meter{PlainSignature(4, 4), PlainSignature(4, 4), PlainSignature(2, 4)}
	two := in(PlainSignature(4, 4), barsOf(3), layer("a", groups(8)))
	two.Meter, two.Name = one.Meter, "C"
	p := settle(t, one, two)
	var starts []int
	for _, s := range p.Sections {
		for bar := range s.Bars() {
			starts = append(starts, eighths(t, s.Start+bar.Start))
		}
	}
	assert.Equal(t, []int{0, 8, 16, 20, 28, 36, 44}, starts)
	assert.True(t, one.OnBarline(16*6))
	assert.False(t, one.OnBarline(24*6))
}

// A change of meter stands on a barline or is refused.
func TestMeterChangeOffTheBarline(t *testing.T) {
	s := in(PlainSignature(4, 4), barsOf(4), layer("a", groups(8)))
	s.Plan = []PlanEntry{{At: Place{Kind: AtBar, N: 2, Beat: 3}, Meter: Meter{PlainSignature(3, 4)}}}
	problems := refused(s)
	require.Len(t, problems, 1)
	assert.Equal(t, "the meter can change only on a barline; this is inside bar 2", problems[0].Text)
}

// Sections begin everything anew: cycles, processes, series, labels; a label
// that stands twice in the piece is an error.
func TestSectionsBeginAnew(t *testing.T) {
	make := func(name string) *Section {
		l := layer("a", groups(3, 2))
		l.Series, l.Restart = [][]Chord{letters("CDEFG")}, RestartNever
		s := in(PlainSignature(4, 8), barsOf(2), l)
		s.Name = name
		return s
	}
	one, two := make("B"), make("C")
	p := settle(t, one, two)
	for _, s := range p.Sections {
		assert.Equal(t, []int{0, 3, 5}, onsets(t, s, 0))
		assert.Equal(t, []int{3, 2, 3}, lengths(t, s, 0))
		assert.Equal(t, "CDE", sung(s, 0))
	}
	problems := refused(make("B"), make("B"))
	require.Len(t, problems, 1)
	assert.Equal(t, `two sections are named "B"`, problems[0].Text)

	marked := make("B")
	marked.LengthRule = barsOf(6)
	marked.Plan = []PlanEntry{{At: Place{Kind: AtBar, N: 2}, Mark: "B1"}}
	problems = refused(marked)
	require.Len(t, problems, 1)
	assert.Equal(t, `the mark "B1" stands twice in the piece`, problems[0].Text, "5 against 4 meet at 20 and are B1 there")
}

// A free line plays once through and is cut at the end; it takes no part in
// realignments.
func TestFreeLine(t *testing.T) {
	l := layer("song")
	l.Patterns = nil
	l.Line = []LineNote{{6, letters("C")[0]}, {6, nil}, {18, letters("D")[0]}, {60, letters("E")[0]}}
	l.Offset = 1
	s := in(PlainSignature(4, 8), barsOf(2), layer("a", groups(4)), l)
	settle(t, s)
	assert.Equal(t, []int{0}, s.Set)
	assert.Equal(t, []int{1, 3, 6}, onsets(t, s, 1))
	assert.Equal(t, []int{1, 3, 2}, lengths(t, s, 1))
	assert.Equal(t, "CDE", sung(s, 1))
	assert.Equal(t, CutByEnd, slices.Collect(s.Cycles(1))[0].Cut)
}

// Exceptions: a cycle with other groups moves what follows, one with other
// pitches does not; a silent cycle stops what rings into it; a bar may deviate
// in groups, pitches or by silence while the loop runs on.
func TestExceptions(t *testing.T) {
	with := func(e Exception) *Layer {
		l := layer("a", groups(3, 2))
		l.Series, l.Except = [][]Chord{letters("CD")}, []Exception{e}
		return l
	}
	two := groups(2, 2)
	s := play(t, 5, 3, with(Exception{Cycle: 2, Pattern: &two}))
	assert.Equal(t, []int{0, 3, 5, 7, 9, 12, 14}, onsets(t, s, 0))
	s = play(t, 5, 3, with(Exception{Cycle: 2, Series: letters("FG")}))
	assert.Equal(t, "CDFGCD", sung(s, 0))
	s = play(t, 5, 3, with(Exception{Bar: 2, Series: letters("FG")}))
	assert.Equal(t, "CDFGCD", sung(s, 0), "a bar whose pitches deviate is no silent bar")
	s = play(t, 5, 3, with(Exception{Bar: 2, Pattern: &two}))
	assert.Equal(t, []int{0, 3, 5, 7, 10, 13}, onsets(t, s, 0))

	shifted := with(Exception{Cycle: 3, Rest: true})
	shifted.Process = []Process{{Rule: process.Rule{Kind: process.Shift, By: -1, After: 1}}}
	s = play(t, 5, 4, shifted)
	// Cycle 2: 2 at 7, 3 at 9; cycle 3 is silent; cycle 4, three earlier: 2 at 15, 3 at 17.
	assert.Equal(t, []int{0, 3, 7, 9, 15, 17}, onsets(t, s, 0))
	assert.Equal(t, []int{3, 2, 2, 1, 2, 3}, lengths(t, s, 0), "the 3 at 9 stops where the silent cycle begins")

	leaves := with(Exception{Bar: 2, Pattern: &Pattern{Groups: []Item{{Size: 5}}}})
	leaves.LeaveAt = &Place{Kind: AtBar, N: 2, Beat: 4}
	s = in(PlainSignature(5, 8), barsOf(3), layer("b", groups(5)), leaves)
	settle(t, s)
	assert.Equal(t, []int{3, 2, 3}, lengths(t, s, 1), "the bar's 5 stops where the layer leaves")
}

// Landing: the head attack once more, with the pitch that is next.
func TestLanding(t *testing.T) {
	l := layer("a", groups(3, 2))
	l.Series, l.Restart = [][]Chord{letters("CDE")}, RestartNever
	s := in(PlainSignature(5, 8), barsOf(2), l)
	s.End = Land
	settle(t, s)
	assert.Equal(t, []int{0, 3, 5, 8, 10}, onsets(t, s, 0))
	assert.Equal(t, "CDECD", sung(s, 0))
	assert.Equal(t, 3, lengths(t, s, 0)[4])
	assert.Equal(t, 3, s.BarCount())

	list := layer("a", groups(3, 2))
	list.Series, list.Restart = [][]Chord{letters("CD"), letters("EF"), letters("GA")}, RestartRealignment
	s = in(PlainSignature(5, 8), barsOf(2), list)
	s.End = Land
	settle(t, s)
	assert.Equal(t, "CDCDC", sung(s, 0), "a realignment each bar, and one at the end")

	gone := layer("b", groups(5))
	gone.LeaveAt = &Place{Kind: AtBar, N: 2}
	s = in(PlainSignature(5, 8), barsOf(2), layer("a", groups(5)), gone)
	s.End = Land
	settle(t, s)
	assert.Equal(t, []int{0}, onsets(t, s, 1), "who has left does not land")
}

// A grower that is spent where the realignment falls starts over there, also
// where the meeting must be walked because a third layer deviates.
func TestSpentAtTheRealignment(t *testing.T) {
	l := layer("a", groups(3, 2, 2))
	l.Process = []Process{{Rule: process.Rule{Kind: process.Grow, Group: 1, By: 1, From: 2, After: 1}}}
	l.Until = UntilRealignment
	odd := layer("b", groups(5))
	five := groups(5)
	odd.Except = []Exception{{Cycle: 2, Pattern: &five}}
	s := in(PlainSignature(5, 8), LengthRule{Kind: Realignments, N: 2}, l, odd)
	settle(t, s)
	assert.True(t, s.Together().Walked)
	assert.Equal(t, []int{0, 35, 70}, together(t, s))
	for r := range s.Realignments() {
		assert.Empty(t, r.Silent)
	}
}

// A cycle of the plan is where the layer really begins it, after the resets:
// 3+2, grown by one each time, meets each barline of 5/8 and is reset there.
func TestMeterChangeAtACycleThatWasReset(t *testing.T) {
	l := layer("a", groups(3, 2))
	l.Process = []Process{{Rule: process.Rule{Kind: process.Grow, Group: 1, By: 1, After: 1}}}
	l.Until = UntilRealignment
	s := in(PlainSignature(5, 8), barsOf(4), l)
	s.Plan = []PlanEntry{{At: Place{Kind: AtCycle, N: 3, Layer: "a"}, Meter: Meter{PlainSignature(6, 8)}}}
	settle(t, s)
	assert.Equal(t, 10, eighths(t, s.Plan[0].Time))
	assert.Equal(t, 22, eighths(t, s.Length))
}

// A length of returns may go beyond 4,096 bars, and so may what is planned: the
// row of 3,001 pitches over five attacks is home after 3,001 cycles of 7 = 21,007
// eighths, and 7 against 8 meet every 56.
func TestPlacesInALongReturn(t *testing.T) {
	l := layer("a", groups(1, 1, 1, 2, 2))
	row := make([]Chord, 3001)
	for i := range row {
		row[i] = Chord{{Step: 'C', Octave: 4}}
	}
	l.Series, l.Restart = [][]Chord{row}, RestartNever
	s := in(PlainSignature(4, 4), LengthRule{Kind: Returns, N: 1}, l, layer("b", groups(8)))
	s.Plan = []PlanEntry{{At: Place{Kind: AtRealignment, N: 2000}, Text: "x"}, {At: Place{Kind: AtCycle, N: 20_001, Layer: "a"}, Text: "y"}}
	settle(t, s)
	assert.Equal(t, 8*21_007, eighths(t, s.Length))
	assert.Equal(t, 2000*56, eighths(t, s.Plan[0].Time))
	assert.Equal(t, 20_000*7, eighths(t, s.Plan[1].Time))
}

// A walked set is followed to the section's end, beyond the 4,096 bars that a
// length may wait for.
func TestWalkedToTheEnd(t *testing.T) {
	odd := layer("b", groups(4))
	four := groups(4)
	odd.Except = []Exception{{Cycle: 2, Pattern: &four}}
	s := in(PlainSignature(4, 8), barsOf(5000), layer("a", groups(4)), odd)
	settle(t, s)
	n := 0
	for range s.Realignments() {
		n++
	}
	assert.Equal(t, 5001, n)
}

// The bare chord of an instrument with one sound is that sound.
func TestBareChords(t *testing.T) {
	claves, _ := instrument.Find("claves")
	l := layer("a", groups(4))
	l.Instrument = claves
	for _, a := range play(t, 4, 1, l).Attacks(0) {
		assert.Equal(t, Chord{{Drum: 1}}, a.Tones)
	}
}
