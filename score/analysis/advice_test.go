package analysis_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/score"
	. "tieover/score/analysis"
	"tieover/score/analysis/grouping"
	"tieover/score/beat"
)

func barringOf(t *testing.T, f *Facts, meter string) Barring {
	t.Helper()
	for _, b := range f.Barrings {
		if b.Meter.String() == meter {
			return b
		}
	}
	require.Fail(t, "no such candidate", meter)
	return Barring{}
}

// By hand. 3+2+2 over bars of 4 in 28 eighths (3.5 bars of 4/4): barlines at 8,
// 16, 24. Groups start at 0 3 5 7 10 12 14 17 19 21 24 26; 8 lies inside
// 7-10, 16 inside 14-17, 24 is a start. So two ties, two groups cut. Cycles
// begin at 0 7 14 21; 7 and 21 are off the quarter beat. In 3+2+2/8 nothing is
// cut. In 3/8 + 2/4 by turns barlines stand at 3 and 7 of each cycle.
func TestBarrings(t *testing.T) {
	f := Of(section(t, score.PlainSignature(4, 4), 28, loop("a", 3, 2, 2)))
	assert.Equal(t, Window{Length: 28 * eighth, Whole: true}, f.Window)

	own := barringOf(t, f, "3+2+2/8")
	assert.Equal(t, Barring{Meter: own.Meter, From: own.From, Bars: 4}, own)
	written := barringOf(t, f, "4/4")
	assert.Equal(t, Barring{Meter: written.Meter, From: written.From, Ties: 2, Broken: 2, Bars: 4, OffBeat: 2}, written)
	two := barringOf(t, f, "[3/8, 2/4]")
	assert.Equal(t, Barring{Meter: two.Meter, From: two.From, Bars: 8, Changes: 7}, two)

	var order []string
	for _, b := range f.Barrings {
		order = append(order, b.Meter.String())
	}
	assert.Equal(t, []string{"3+2+2/8", "[3/8, 2/4]", "4/4"}, order)
}

// By hand: cycles of 10 and 12 have 2 in common, a bar of 1/4; 12 in two equal
// bars is 3/4, in three 2/4, in four 3/8; 10 in two is 5/8.
func TestCandidates(t *testing.T) {
	f := Of(section(t, score.PlainSignature(5, 4), 60, loop("a", 3, 2, 2, 3), loop("b", 3, 3, 2, 2, 2)))
	for _, meter := range []string{"5/4", "3+2+2+3/8", "3+3+2+2+2/8", "5/8", "3/4", "2/4", "3/8", "1/4"} {
		barringOf(t, f, meter)
	}
	assert.Len(t, f.Barrings, 8, "60 eighths are too long for a bar")
	// b is held over the barlines at 40 and 50 eighths.
	assert.Equal(t, 2, barringOf(t, f, "5/4").Ties)
}

// A held note over several barlines crosses each of them; by hand: one attack
// of 24 eighths in bars of 2/4 crosses five.
func TestLongNotesCrossEveryBarline(t *testing.T) {
	f := Of(section(t, score.PlainSignature(2, 4), 24, loop("a", 24)))
	b := barringOf(t, f, "2/4")
	assert.Equal(t, 5, b.Ties)
	assert.Equal(t, 1, b.Broken)
}

// By hand: 7s in 32 eighths: four cycles and 4 more, the cut is one eighth into
// the first 2. The next barline of 4/4 that ends a 7 is at 56, three bars on.
func TestEnds(t *testing.T) {
	f := Of(section(t, score.PlainSignature(4, 4), 32, loop("a", 3, 2, 2)))
	assert.Equal(t, Ending{Cycle: 5, By: score.CutByEnd, At: 32 * eighth, Missing: 3 * eighth,
		Group: 2, Kept: eighth, Of: 2 * eighth}, f.Layers[0].End)
	assert.Equal(t, Clean{Known: true, Bars: 3, At: 56 * eighth, Bar: 7}, f.Clean)

	// From inside bar 5 (34 eighths) the rest of that bar counts as one.
	f = Of(section(t, score.PlainSignature(4, 4), 34, loop("a", 3, 2, 2)))
	assert.Equal(t, Clean{Known: true, Bars: 3, At: 56 * eighth, Bar: 7}, f.Clean)

	// So it does where another section follows and the last bar is short.
	first := section(t, score.PlainSignature(4, 4), 34, loop("a", 3, 2, 2))
	second := section(t, score.PlainSignature(4, 4), 8, loop("a", 8))
	second.Name = "B"
	require.Empty(t, (&score.Piece{Grid: grid, Sections: []*score.Section{first, second}}).Settle())
	assert.Equal(t, Clean{Known: true, Bars: 3, At: 56 * eighth, Bar: 7}, Of(first).Clean)
	assert.Equal(t, 6, Of(second).Clean.Bar, "after five bars comes one")

	f = Of(section(t, score.PlainSignature(4, 4), 56, loop("a", 3, 2, 2)))
	assert.Equal(t, Clean{Known: true, At: 56 * eighth, Bar: 7}, f.Clean)
	assert.True(t, f.Layers[0].End.Complete)
}

// By hand: a listener who hears 3+2+2+3 as 3+3+2+2 starts his first bar at the
// cycle's last group, eighth 7. The realignment at 60 eighths is 53 later: bar
// 6 of 5/4 (from 50), third eighth past it and so beat 2½; in the heard cycle it
// is pulse 4, where the second 3 begins.
func TestFeltRealignments(t *testing.T) {
	s := section(t, score.PlainSignature(5, 4), 60, loop("a", 3, 2, 2, 3), loop("b", 3, 3, 2, 2, 2))
	h := Of(s).Layers[0].Hearings()
	require.Len(t, h, 1)
	var felt []Felt
	for f := range FeltRealignments(s, h[0]) {
		felt = append(felt, f)
	}
	require.Len(t, felt, 2)
	assert.Equal(t, Felt{Index: 0, Pulse: 4, OnPulse: true, Group: 2, OnGroup: true, Early: true}, felt[0])
	assert.Equal(t, Felt{Index: 1, Time: 60 * eighth, Pulse: 4, OnPulse: true, Group: 2, OnGroup: true, Metric: true,
		Where: score.Where{Bar: 6, Beat: 2, Past: beat.Of(1, 8), Half: true}}, felt[1])
}

// By hand: c loops 2+2+3 outside the realigning set, so the realignments at 0, 24
// and 48 eighths are at 0, 3 and 6 of its cycle. Heard as 3+2+2, from eighth 4 on,
// that is 3 (group 2 begins), 6 (inside group 3) and 2 (inside group 1) of the
// heard cycle; 20 eighths after the first felt downbeat is bar 3 beat 3 of 4/4, 44
// eighths bar 6 beat 3.
func TestFeltRealignmentsOfOthers(t *testing.T) {
	s := section(t, score.PlainSignature(4, 4), 48, loop("a", 3, 3, 2), loop("b", 4, 4, 4), loop("c", 2, 2, 3))
	s.SetNames = []score.Named{{Name: "a"}, {Name: "b"}}
	require.Empty(t, (&score.Piece{Grid: grid, Sections: []*score.Section{s}}).Settle())
	h := Of(s).Layers[2].Hearings()
	require.Len(t, h, 1)
	require.Equal(t, []int{3, 2, 2}, h[0].Groups)
	assert.Equal(t, []Felt{
		{Pulse: 4, OnPulse: true, Group: 2, OnGroup: true, Early: true},
		{Index: 1, Time: 24 * eighth, Pulse: 7, OnPulse: true, Group: 3, Metric: true, Where: score.Where{Bar: 3, Beat: 3}, OnBeat: true},
		{Index: 2, Time: 48 * eighth, Pulse: 3, OnPulse: true, Group: 1, Metric: true, Where: score.Where{Bar: 6, Beat: 3}, OnBeat: true},
	}, slices.Collect(FeltRealignments(s, h[0])))
}

// By hand: 2+2+3 begun 20 eighths late first sounds its 3, heard first, at 24.
// It meets the barline at 48: 24 eighths later, so on the barline of bar 4.
func TestFeltDownbeatSounds(t *testing.T) {
	late := loop("a", 2, 2, 3)
	late.Offset = 20
	s := section(t, score.PlainSignature(4, 4), 96, late)
	h := Of(s).Layers[0].Hearings()
	require.Len(t, h, 1)
	assert.Equal(t, []Felt{{Index: 1, Time: 48 * eighth, Pulse: 4, OnPulse: true, Group: 2, OnGroup: true,
		Metric: true, Where: score.Where{Bar: 4, Beat: 1}, OnBeat: true, Barline: true}}, slices.Collect(FeltRealignments(s, h[0])))
}

// By hand: 7 eighths from the start end at multiples of 7, those two later at 2
// more than multiples of 7: never together. 9 eighths and 8 that begin 1 later
// share no divisor and meet at 9.
func TestNoCleanEnd(t *testing.T) {
	late := loop("b", 7)
	late.Offset = 2
	f := Of(section(t, score.PlainSignature(4, 4), 32, loop("a", 3, 2, 2), late))
	assert.Equal(t, Clean{Never: true}, f.Clean)
	late = loop("a", 8)
	late.Offset = 1
	f = Of(section(t, score.PlainSignature(4, 4), 32, late))
	assert.Equal(t, Clean{Never: true}, f.Clean, "it never ends on a barline")
	f = Of(section(t, score.PlainSignature(4, 4), 32, loop("a", 499), loop("b", 503), loop("c", 509)))
	assert.Equal(t, Clean{Far: true}, f.Clean)
}

// By hand, from the definitions: which cycles a meter divides by twos and threes.
func TestDivisions(t *testing.T) {
	for _, c := range []struct {
		meter  score.Signature
		unit   beat.Time // of 48 to the whole note
		pulses int
		want   []int
	}{
		{score.PlainSignature(4, 4), 3, 16, []int{2, 2, 2, 2}},
		{score.PlainSignature(4, 4), 6, 16, []int{2, 2, 2, 2}}, // two bars
		{score.PlainSignature(6, 8), 6, 6, []int{2, 3}},
		{score.PlainSignature(3, 4), 6, 6, []int{3, 2}},
		{score.PlainSignature(12, 8), 6, 12, []int{2, 2, 3}},
		{score.PlainSignature(9, 8), 3, 18, []int{3, 3, 2}},
		{score.PlainSignature(5, 4), 6, 10, nil},
		{score.PlainSignature(4, 4), 6, 7, nil},
		{score.PlainSignature(4, 4), 6, 24, nil}, // three bars
		{score.PlainSignature(4, 4), 4, 12, nil}, // three to a beat
		{score.Signature{Terms: []score.Term{{Groups: []int{3, 3, 2}, Unit: 8}}}, 6, 8, nil},
	} {
		got, ok := Divisions(grid, c.meter, c.unit, c.pulses)
		assert.Equal(t, c.want != nil, ok, c)
		if ok {
			assert.Equal(t, c.want, got, c)
		}
	}
}

// The tresillo in 4/4; second computation.
func TestGroupingInItsMeter(t *testing.T) {
	f := Of(section(t, score.PlainSignature(4, 4), 8, loop("a", 3, 3, 2)))
	g := f.Layers[0].Groups[0]
	require.NotNil(t, g.LHL)
	assert.Equal(t, 2, *g.LHL)
	assert.Equal(t, "2/3", g.WNBD.RatString(), "a beat of two")
	assert.Equal(t, []int{2, 2, 2}, g.Divisions, "halves, beats, eighths")
	assert.Equal(t, "4", g.TwosAndThrees.Orders.String(), "2222 233 323 332")
	assert.Equal(t, "2", g.TwosAndThrees.Necklaces.String())
	assert.Equal(t, "7", g.AsMany.Necklaces.String(), "three onsets in eight")
	assert.Equal(t, "5", g.AsMany.Bracelets.String())
	assert.Equal(t, []int{2, 3, 3}, g.Necklace)
	assert.Equal(t, []int{2, 3, 3}, g.Bracelet)
	assert.Equal(t, 2, g.DistinctGaps)
	assert.Equal(t, 3, g.Rotation)
	assert.True(t, g.Euclidean)
	assert.Equal(t, []int{3, 3, 2}, g.Euclid)
}

// Silent groups are no attacks, and a grouping may begin with one. By hand.
func TestSilentGroups(t *testing.T) {
	l := loop("a", 2, 3, 3)
	l.Patterns[0].Groups[0].Blank = true
	g := Of(section(t, score.PlainSignature(4, 4), 8, l)).Layers[0].Groups[0]
	assert.Equal(t, []int{2, 5}, g.Rhythm.Onsets)
	assert.Equal(t, []int{2, 3, 3}, g.Sizes)
	assert.Equal(t, []int{3, 5}, g.Necklace)
	assert.Equal(t, grouping.Neither, g.Class, "3+5 with 1 moved is 4+4; the groups 2+3+3 would be a Euclidean string")
}

// The figure of twelve by Reich, boxed, is a rhythm of its own beside the
// dotted beats that group it: 1+1+2+1+2+2+1+2 (a published matrix).
func TestRhythmOfABox(t *testing.T) {
	l := loop("a", 3, 3, 3, 3)
	l.Patterns[0].Box = []score.Sign("xxx=xx=x=xx=")
	f := Of(section(t, score.PlainSignature(12, 8), 12, l))
	require.NotNil(t, f.Layers[0].Rhythm)
	assert.Equal(t, []int{1, 1, 2, 1, 2, 2, 1, 2}, f.Layers[0].Rhythm.Sizes)
	assert.Equal(t, "xxx.xx.x.xx.", f.Layers[0].Rhythm.Rhythm.Box())

	// Bells in box notation (Gómez and others 2005, second-hand): tambú as it
	// stands; 2122221, whose strokes are at 0 2 3 5 7 9 11, is soli 2222121
	// begun at its third stroke.
	l = loop("a", 3, 3, 3, 3)
	l.Patterns[0].Box = []score.Sign("x=x=x=xx=x=x")
	f = Of(section(t, score.PlainSignature(12, 8), 12, l))
	assert.Empty(t, f.Layers[0].Hearings(), "a named pattern as it stands")
	l.Patterns[0].Box = []score.Sign("x=xx=x=x=x=x")
	f = Of(section(t, score.PlainSignature(12, 8), 12, l))
	heard := f.Layers[0].Hearings()
	require.NotEmpty(t, heard)
	assert.Equal(t, "soli", heard[0].Patterns[0].Name)
	assert.Equal(t, 3, heard[0].Turn)

	// Figures may be finer than the pulse: x=xx.. fills a 3 with sixteenths.
	l = loop("a", 3, 3)
	l.Figures = map[int][]score.Sign{3: []score.Sign("x=xx..")}
	f = Of(section(t, score.PlainSignature(6, 8), 6, l))
	require.NotNil(t, f.Layers[0].Rhythm)
	assert.Equal(t, []int{2, 1, 3, 2, 1, 3}, f.Layers[0].Rhythm.Sizes)
	assert.Equal(t, eighth/2, f.Layers[0].Rhythm.Unit)

	assert.Nil(t, Of(section(t, score.PlainSignature(6, 8), 6, loop("a", 3, 3))).Layers[0].Rhythm)
	assert.Empty(t, f.Layers[0].Plain)

	l = loop("a", 3, 4, 2, 4)
	l.Figures = map[int][]score.Sign{3: []score.Sign("x.x")}
	assert.Equal(t, []int{2, 4}, Of(section(t, score.PlainSignature(4, 4), 13, l)).Layers[0].Plain)
}
