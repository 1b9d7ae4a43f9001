package score

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/score/beat"
	"tieover/score/process"
)

// Musical rulings, case by case, each worked out by hand on eighths (six ticks).

// barsOf is a length in bars.
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

// play settles one layer of eighths in bars of so many eighths; with a layer
// alone the barline is its partner.
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
	l.Process = []Process{{Rule: process.Rule{Kind: process.Grow, Group: 1, By: 1, From: 2, After: 1}}}
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
	l.Process = []Process{{Rule: process.Rule{Kind: process.Grow, Group: 1, By: 1, After: 1}}}
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
	back.Process = []Process{{Rule: process.Rule{Kind: process.Retrograde, After: 2}}}
	assert.Equal(t, []int{0, 3, 5, 7}, accents(t, play(t, 5, 2, back), 0), "backwards 2+3: the groups begin at 5 and 7")

	late := layer("a", groups(3, 2))
	late.Strike, late.Accent = StrikeAll, AccentGroup
	late.Process = []Process{{Rule: process.Rule{Kind: process.Shift, By: 1, After: 1}}}
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
	assert.True(t, s.EveryBar(), "a realignment with each bar has no mark")
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
		{Process{Rule: process.Rule{Kind: process.Rotate, By: 1, After: 1}}, "CDEDECECD", "CDECDECDE"},
		{Process{Rule: process.Rule{Kind: process.Shift, By: 2, After: 1}}, "CDEECDDEC", "CDECDECDE"},
		{Process{Rule: process.Rule{Kind: process.Retrograde, After: 2}}, "CDEEDCCDE", "CDECDECDE"},
	} {
		l := layer("a", groups(3, 2, 2))
		l.Series, l.Process = [][]Chord{letters("CDE")}, []Process{c.process}
		assert.Equal(t, c.cycle, sung(play(t, 7, 3, l), 0))
		l.Restart = RestartNever
		assert.Equal(t, c.never, sung(play(t, 7, 3, l), 0))
	}
}

// Beats: the denominator's value in simple meters, dotted in 6, 9, 12 over 8 or
// 16, one a summand in additive ones, each eighth in plain 5/8, 7/8, 11/8.
func TestBeats(t *testing.T) {
	e := func(counts ...int64) (all []beat.Span) {
		for _, n := range counts {
			all = append(all, beat.Of(n, 8))
		}
		return all
	}
	for _, c := range []struct {
		meter Signature
		want  []beat.Span
	}{
		{PlainSignature(3, 4), e(2, 2, 2)}, {PlainSignature(6, 8), e(3, 3)}, {PlainSignature(9, 8), e(3, 3, 3)},
		{PlainSignature(12, 8), e(3, 3, 3, 3)}, {PlainSignature(5, 8), e(1, 1, 1, 1, 1)}, {PlainSignature(3, 8), e(1, 1, 1)},
		{PlainSignature(7, 8), e(1, 1, 1, 1, 1, 1, 1)}, {PlainSignature(6, 4), e(2, 2, 2, 2, 2, 2)},
		{PlainSignature(6, 16), []beat.Span{beat.Of(3, 16), beat.Of(3, 16)}},
		{Signature{[]Term{{[]int{3, 2, 2}, 8}}}, e(3, 2, 2)}, {Signature{[]Term{{[]int{2}, 4}, {[]int{3}, 8}}}, e(4, 3)},
	} {
		assert.Equal(t, c.want, c.meter.Beats(), c.meter.String())
	}
}

// The composite has every layer, those outside the realigning set too.
func TestCompositeHasEveryLayer(t *testing.T) {
	cut := layer("b", groups(3))
	cut.Loop, cut.CutEvery = CutBars, 1
	s := in(PlainSignature(4, 8), barsOf(2), layer("a", groups(8)), cut)
	settle(t, s)
	var at []int
	for strike := range s.Moments() {
		at = append(at, eighths(t, strike.Time))
	}
	assert.Equal(t, []int{0, 3, 4, 7}, at)
}

// Note values by name, a tuplet by its usual name or ratio, a tie by a plus.
func TestValueNames(t *testing.T) {
	for want, v := range map[string]Value{
		"dotted quarter":    {Base: beat.Of(3, 8), Actual: 1, Normal: 1},
		"triplet quarter":   {Base: beat.Of(1, 4), Actual: 3, Normal: 2},
		"sixteenth in 5:4":  {Base: beat.Of(1, 16), Actual: 5, Normal: 4},
		"quarter+sixteenth": {Base: beat.Of(1, 4), Actual: 1, Normal: 1, Tied: beat.Of(1, 16)},
	} {
		assert.Equal(t, want, v.Name(beat.American))
	}
	assert.Equal(t, "triplet crotchet", Value{Base: beat.Of(1, 4), Actual: 3, Normal: 2}.Name(beat.British))
}
