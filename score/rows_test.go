package score

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/score/beat"
	"tieover/score/instrument"
)

// Musical rulings, case by case, each worked out by hand on eighths (six ticks).

// bars is a length in bars.
func barsOf(n int64) LengthRule { return LengthRule{Kind: Bars, N: n} }

func box(signs string, sizes ...int) Pattern {
	p := groups(sizes...)
	if len(sizes) == 0 {
		for range signs {
			p.Groups = append(p.Groups, Item{Size: 1})
		}
	}
	for _, c := range signs {
		p.Box = append(p.Box, Sign(c))
	}
	return p
}

// letters is a series of bare steps: "CDE".
func letters(text string) []Chord {
	var all []Chord
	for _, c := range text {
		all = append(all, Chord{{Step: byte(c), Octave: 4}})
	}
	return all
}

// sung lists the steps a layer sounds.
func sung(s *Section, layer int) string {
	out := ""
	for _, a := range s.Attacks(layer) {
		out += string(a.Tones[0].Step)
	}
	return out
}

// accents lists which attacks are accented, in eighths.
func accents(t *testing.T, s *Section, layer int) []int {
	t.Helper()
	var out []int
	for at, a := range s.Attacks(layer) {
		if a.Accent {
			out = append(out, eighths(t, at))
		}
	}
	return out
}

// play settles one layer of eighths in a plain meter of eighths, with a steady
// second layer that makes the bar the realigning partner irrelevant.
func play(t *testing.T, beats int, bars int64, l *Layer) *Section {
	t.Helper()
	s := in(PlainSignature(beats, 8), barsOf(bars), l)
	settle(t, s)
	return s
}

// A layer outside the set that is inside its cycle at the realignment: its
// processes start over with its next own cycle, its series with the next
// attack. 6 against 4 meet at 12 and 24; the third layer's cycles of 5, growing
// 3+2, 4+1, 5, begin at 0 5 10, then 15 afresh: 3+2, 4+1, then 25 afresh.
func TestLayerOutsideTheSetIsResetAtItsNextCycle(t *testing.T) {
	l := layer("c", groups(3, 2))
	l.Process = []Process{{Kind: Grow, Group: 1, By: 1, From: 2, After: 1}}
	l.Until, l.Restart, l.Series = UntilRealignment, RestartRealignment, [][]Chord{letters("CDEFGAB")}
	s := in(PlainSignature(4, 8), LengthRule{Kind: Pulses, N: 30}, layer("a", groups(6)), layer("b", groups(4)), l)
	s.SetNames = []Named{{Name: "a"}, {Name: "b"}}
	settle(t, s)
	assert.Equal(t, []int{0, 12, 24}, together(t, s))
	assert.Equal(t, [][]int{{3, 2}, {4, 1}, {5}, {3, 2}, {4, 1}, {3, 2}}, sizesOf(s, 2))
	assert.Equal(t, []int{0, 3, 5, 9, 10, 15, 18, 20, 24, 25, 28}, onsets(t, s, 2))
	assert.Equal(t, "CDEFGCDECDE", sung(s, 2), "over at 15, the first attack after 12, and at 24")
}

// Figures: by the size after the process, truncated by the cut; sizes without
// one follow strike; six signs in a group of three are half pulses.
func TestFigures(t *testing.T) {
	l := layer("a", groups(3, 2))
	l.Figures = map[int][]Sign{3: []Sign("x.x"), 4: []Sign("xxx=")}
	l.Process = []Process{{Kind: Grow, Group: 1, By: 1, After: 1}}
	s := play(t, 4, 4, l) // 3+2, 4+2, 5 cut by the end at 16
	assert.Equal(t, []int{0, 2, 3, 5, 6, 7, 9, 11}, onsets(t, s, 0))
	assert.Equal(t, []int{1, 1, 2, 1, 1, 2, 2, 5}, lengths(t, s, 0), "5 has no figure and is held")

	l = layer("a", groups(3))
	l.Figures = map[int][]Sign{3: []Sign("x=xx..")}
	s = play(t, 4, 1, l)
	var at, long []beat.Time
	for onset, a := range s.Attacks(0) {
		at, long = append(at, onset/3), append(long, a.Length/3) // sixteenths
	}
	assert.Equal(t, []beat.Time{0, 2, 3, 6}, at)
	assert.Equal(t, []beat.Time{2, 1, 1, 2}, long, "the second figure is cut by the bar after one pulse: x=")
}

// A box that begins with holds goes on the last attack of the cycle before; in
// the first cycle, and after a cut, that is a rest.
func TestBoxThatBeginsWithHolds(t *testing.T) {
	s := play(t, 5, 3, layer("a", box("==x.x")))
	assert.Equal(t, []int{2, 4, 7, 9, 12, 14}, onsets(t, s, 0))
	assert.Equal(t, []int{1, 3, 1, 3, 1, 1}, lengths(t, s, 0))

	l := layer("a", box("==x.x"))
	l.Loop, l.CutEvery = CutBars, 1
	s = play(t, 5, 2, l)
	assert.Equal(t, []int{2, 4, 7, 9}, onsets(t, s, 0))
	assert.Equal(t, []int{1, 1, 1, 1}, lengths(t, s, 0), "each bar starts over, though no cycle is shortened")
	for c := range s.Cycles(0) {
		assert.Equal(t, NotCut, c.Cut)
	}
}

// An accent stands on an attack exactly at the start of its group; a group
// without one has none.
func TestAccentsOfGroups(t *testing.T) {
	l := layer("a", groups(3, 2))
	l.Figures, l.Accent = map[int][]Sign{3: []Sign(".xx")}, AccentGroup
	assert.Equal(t, []int{3, 8}, accents(t, play(t, 5, 2, l), 0))

	all := layer("a", groups(3, 2))
	all.Strike, all.Accent = StrikeAll, AccentGroup
	assert.Equal(t, []int{0, 3, 5, 8}, accents(t, play(t, 5, 2, all), 0))
	all.Accent = AccentNone
	assert.Empty(t, accents(t, play(t, 5, 2, all), 0))

	back := layer("a", groups(3, 2))
	back.Strike, back.Accent = StrikeAll, AccentGroup
	back.Process = []Process{{Kind: Retrograde, After: 2}}
	assert.Equal(t, []int{0, 3, 5, 7}, accents(t, play(t, 5, 2, back), 0), "backwards 2+3: the groups begin at 5 and 7")

	late := layer("a", groups(3, 2))
	late.Strike, late.Accent = StrikeAll, AccentGroup
	late.Process = []Process{{Kind: Shift, By: 1, After: 1}}
	assert.Equal(t, []int{0, 3, 6, 9}, accents(t, play(t, 5, 2, late), 0), "the second pulse of the 2 comes in at 5, but no group begins there")
}

// Pitches: too few go round inside the cycle, under never over its edge; those
// of a list are dealt cycle by cycle, and a realignment begins the list anew.
func TestSeries(t *testing.T) {
	few := layer("a", groups(2, 1, 1, 1))
	few.Series = [][]Chord{letters("CDE")}
	assert.Equal(t, "CDECCDEC", sung(play(t, 5, 2, few), 0))
	few.Restart = RestartNever
	assert.Equal(t, "CDECDECD", sung(play(t, 5, 2, few), 0))

	many := layer("a", groups(3, 2))
	many.Series = [][]Chord{letters("CDE")}
	assert.Equal(t, "CDCD", sung(play(t, 5, 2, many), 0), "the third is never heard")

	list := layer("a", groups(2, 1))
	list.Series = [][]Chord{letters("CD"), letters("EF")}
	assert.Equal(t, "CDEFCDEFCDEF", sung(play(t, 9, 2, list), 0))
	list.Restart = RestartRealignment
	assert.Equal(t, "CDEFCDCDEFCD", sung(play(t, 9, 2, list), 0), "every third cycle is on a barline, and the bar is the partner")

	alone := layer("a", groups(2, 1))
	alone.Series, alone.Restart = [][]Chord{letters("CD"), letters("EF")}, RestartRealignment
	s := play(t, 3, 3, alone)
	assert.False(t, s.Marked(), "a realignment with each bar has no mark")
	assert.Equal(t, "CDCDCD", sung(s, 0), "but is one")
}

// A cut restarts the series under cycle only, and what it removes took no
// pitch. 2+2+2 cut every five eighths plays 2 2 1.
func TestSeriesAndCuts(t *testing.T) {
	for restart, want := range map[Restart]string{RestartCycle: "CDECDE", RestartNever: "CDEFGA"} {
		l := layer("a", groups(2, 2, 2, 2))
		l.Series, l.Restart = [][]Chord{letters("CDEFGAB")}, restart
		l.Loop, l.CutEvery = CutBars, 1
		s := play(t, 5, 2, l)
		assert.Equal(t, want, sung(s, 0))
		assert.Equal(t, []int{2, 2, 1, 2, 2, 1}, lengths(t, s, 0))
	}
	list := layer("b", groups(2, 2))
	list.Series, list.Restart = [][]Chord{letters("CD"), letters("EF"), letters("GA")}, RestartRealignment
	list.Loop, list.CutEvery = CutBars, 1
	s := in(PlainSignature(6, 8), barsOf(4), layer("a", groups(9)), list)
	settle(t, s) // realignments with the barline at 18, 36: a alone is the set
	assert.Equal(t, []int{0, 18}, together(t, s))
	assert.Equal(t, "CDE"+"GAC"+"EFG"+"CDE", sung(s, 1), "six cycles of 4 and 2 to three bars, then anew at 18")
}

// Under cycle the pitches travel with their attacks when the cycle turns; under
// never they are dealt as they sound.
func TestPitchesTravel(t *testing.T) {
	for _, c := range []struct {
		process Process
		cycle   string
		never   string
	}{
		{Process{Kind: Rotate, By: 1, After: 1}, "CDEDECECD", "CDECDECDE"},
		{Process{Kind: Shift, By: 2, After: 1}, "CDEECDDEC", "CDECDECDE"},
		{Process{Kind: Retrograde, After: 2}, "CDEEDCCDE", "CDECDECDE"},
	} {
		l := layer("a", groups(3, 2, 2))
		l.Series, l.Process = [][]Chord{letters("CDE")}, []Process{c.process}
		assert.Equal(t, c.cycle, sung(play(t, 7, 3, l), 0))
		l.Restart = RestartNever
		assert.Equal(t, c.never, sung(play(t, 7, 3, l), 0))
	}
}

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

// enters: cycle 3 is when the layer's own third cycle would have begun; its
// numbers, processes and series begin with the entry.
func TestEntryAtACycle(t *testing.T) {
	l := layer("b", groups(3, 2))
	l.EnterAt = &Place{Kind: AtCycle, N: 3}
	l.Process = []Process{{Kind: Rotate, By: 1, After: 1}}
	l.Series, l.Restart = [][]Chord{letters("CDE")}, RestartNever
	s := in(PlainSignature(4, 8), barsOf(5), layer("a", groups(4)), l)
	settle(t, s)
	assert.Equal(t, []int{10, 13, 15, 17}, onsets(t, s, 1))
	assert.Equal(t, "CDEC", sung(s, 1))
	assert.Equal(t, 1, slices.Collect(s.Cycles(1))[0].Index)
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
	l.Process = []Process{{Kind: Rotate, By: 1, After: 1}}
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

// A grower takes what the donor has left and then from the next, going round,
// never from itself; a held one stays as it is.
func TestDonorsGoRound(t *testing.T) {
	l := layer("a", groups(2, 3, 2, 1))
	l.Process = []Process{{Kind: Grow, Group: 2, By: 2, From: 4, After: 1}}
	assert.Equal(t, [][]int{{2, 3, 2, 1}, {1, 5, 2}, {7, 1}, {7, 1}}, func() [][]int {
		l.Process[0].Hold = true
		return sizesOf(play(t, 8, 4, l), 0)
	}(), "4 gives its 1 and group 1 one more; then 1 and one of group 3; then nobody has two")
}

// A group that shrinks away has no attack and takes no pitch.
func TestShrinkingAway(t *testing.T) {
	l := layer("a", groups(2, 3))
	l.Process = []Process{{Kind: Grow, Group: 1, By: -1, From: 2, After: 1, Hold: true}}
	l.Series = [][]Chord{letters("CD")}
	s := play(t, 5, 4, l)
	assert.Equal(t, [][]int{{2, 3}, {1, 4}, {5}, {5}}, sizesOf(s, 0))
	assert.Equal(t, "CDCDCC", sung(s, 0))
}

// Append makes each cycle a group longer; after: 2 first changes cycle 3.
func TestAppend(t *testing.T) {
	l := layer("a", groups(3))
	l.Process = []Process{{Kind: Append, Size: 2, After: 2}}
	s := in(PlainSignature(4, 8), LengthRule{Kind: Pulses, N: 23}, l)
	settle(t, s)
	assert.Equal(t, [][]int{{3}, {3}, {3, 2}, {3, 2}, {3, 2, 2}}, sizesOf(s, 0))
}

// on: every 3rd turns cycles 3 and 6; together with a rotation the order is
// turned, then played backwards.
func TestRetrogradeAndRotation(t *testing.T) {
	l := layer("a", groups(1, 2, 3))
	l.Process = []Process{{Kind: Retrograde, After: 3}}
	assert.Equal(t, [][]int{{1, 2, 3}, {1, 2, 3}, {3, 2, 1}, {1, 2, 3}, {1, 2, 3}, {3, 2, 1}}, sizesOf(play(t, 6, 6, l), 0))
	var changed []bool
	for c := range play(t, 6, 4, l).Cycles(0) {
		changed = append(changed, c.Changed)
	}
	assert.Equal(t, []bool{true, false, true, true}, changed, "the order is read differently in cycle 3, and again in 4")

	l.Process = []Process{{Kind: Rotate, By: 1, After: 1}, {Kind: Retrograde, After: 2}}
	assert.Equal(t, [][]int{{1, 2, 3}, {1, 3, 2}, {3, 1, 2}, {3, 2, 1}}, sizesOf(play(t, 6, 4, l), 0))
}

// Backwards the durations are turned, rests too, and each attack still begins
// its own: x=x xx becomes xx xx=.
func TestRetrogradeTurnsDurations(t *testing.T) {
	l := layer("a", groups(3, 2))
	l.Figures = map[int][]Sign{3: []Sign("x=x"), 2: []Sign("x.")}
	l.Process = []Process{{Kind: Retrograde, After: 2}}
	s := play(t, 5, 2, l)
	assert.Equal(t, []int{0, 2, 3, 6, 7, 8}, onsets(t, s, 0))
	assert.Equal(t, []int{2, 1, 1, 1, 1, 2}, lengths(t, s, 0), ". x | x x=")
}

// A turned box: a hold that a rest now precedes holds nothing; shifted, an
// attack that rings into the holds at the box's start moves as a whole.
func TestTurnedBoxes(t *testing.T) {
	l := layer("a", box("==x.", 2, 2))
	l.Process = []Process{{Kind: Rotate, By: 1, After: 1}}
	s := play(t, 4, 2, l)
	assert.Equal(t, []int{2, 4}, onsets(t, s, 0))
	assert.Equal(t, []int{1, 1}, lengths(t, s, 0))

	l = layer("a", box("=x.x", 4))
	l.Process = []Process{{Kind: Shift, By: 1, After: 1}}
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
	back.Process = []Process{{Kind: Retrograde, After: 2}}
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
	marked.LengthRule = barsOf(5)
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
	shifted.Process = []Process{{Kind: Shift, By: -1, After: 1}}
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
	l.Process = []Process{{Kind: Grow, Group: 1, By: 1, From: 2, After: 1}}
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
