package score

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// cutEvery makes a bare layer that starts over every so many bars.
func cutEvery(bars int, name string, sizes ...int) *Layer {
	l := layer(name, groups(sizes...))
	l.Loop, l.CutEvery = CutBars, bars
	return l
}

// meetingsOf writes the realignments of a section after the start: the eighth,
// who is cut there, the label, and || for a double bar.
func meetingsOf(t *testing.T, s *Section) string {
	t.Helper()
	var all []string
	for r := range s.Realignments() {
		if r.Index == 0 {
			continue
		}
		text := fmt.Sprint(eighths(t, r.Time))
		for _, i := range r.Cut {
			text += " " + s.Layers[i].Name
		}
		if r.Label != "" {
			text += " [" + r.Label + "]"
		}
		if r.Divides {
			text += " ||"
		}
		all = append(all, text)
	}
	return strings.Join(all, ", ")
}

func alsoTogether(t *testing.T, s *Section) (all []int) {
	t.Helper()
	for at := range s.AlsoTogether() {
		all = append(all, eighths(t, at))
	}
	return all
}

// Worked by hand, 5/4, a bar of ten eighths: loops of nine, cut every ten bars,
// against ten. lcm(9, 10) = 90 begins bar 10, the cut follows at 100, where the
// nine is one eighth into its cycle; from there on all comes again.
func TestACutLoopRealigns(t *testing.T) {
	s := in(fiveFour, LengthRule{Kind: Bars, N: 20}, cutEvery(10, "Crane", 4, 3, 2), layer("Winch", groups(6, 4)))
	s.Name = "C"
	settle(t, s)
	assert.Equal(t, []int{0, 1}, s.Set)
	assert.Equal(t, "90 [C1], 100 Crane [C2 cut] ||, 190 [C3], 200 Crane", meetingsOf(t, s))
	assert.Empty(t, alsoTogether(t, s))
	assert.False(t, s.EveryBar())
}

// More by hand, in eighths of 5/4.
func TestCutLoopsByHand(t *testing.T) {
	for _, c := range []struct {
		name   string
		bars   int64
		layers []*Layer
		want   string
		also   []int
	}{
		{"9·11 = 99 lies inside the last bar before the cut", 20,
			[]*Layer{cutEvery(10, "a", 9), cutEvery(10, "b", 11)},
			"100 a b [B1 cut] ||, 200 a b", []int{99, 199}},
		{"9·13 = 117 lies past the cuts", 16,
			[]*Layer{cutEvery(5, "a", 9), cutEvery(5, "b", 13)},
			"50 a b [B1 cut] ||, 100 a b [B2 cut] ||, 150 a b [B3 cut] ||", nil},
		{"30, 60, 90 by themselves; 100 is four into a six; 90 begins the last bar before it, 60 is four bars before it", 20,
			[]*Layer{cutEvery(10, "a", 6), cutEvery(10, "b", 10)},
			"30 [B1], 60 [B2] ||, 90 [B3], 100 a [B4 cut] ||, 130 [B5], 160 [B6] ||, 190 [B7], 200 a", nil},
		{"loops that fill the bar", 4,
			[]*Layer{layer("a", groups(4, 3, 3)), layer("b", groups(6, 4))},
			"10, 20, 30, 40", nil},
		{"two spans at once: the longer counts; 20 + 7 = 3·9 lies three bars before", 8,
			[]*Layer{cutEvery(2, "a", 7), cutEvery(4, "b", 9)},
			"27 [B1], 40 a b [B2 cut] ||, 67 [B3], 80 a b", nil},
		{"a cut of three bars makes no double bar", 6,
			[]*Layer{cutEvery(3, "a", 7), layer("b", groups(5))},
			"30 a [B1 cut], 60 a", nil},
		{"cut in each bar: nothing is marked", 3,
			[]*Layer{cutEvery(1, "a", 3), layer("b", groups(10))},
			"10 a, 20 a, 30 a", nil},
	} {
		s := in(fiveFour, LengthRule{Kind: Bars, N: c.bars}, c.layers...)
		settle(t, s)
		assert.Equal(t, c.want, meetingsOf(t, s), c.name)
		assert.ElementsMatch(t, c.also, alsoTogether(t, s), c.name)
	}
}

// A layer alone meets the barline: seven eighths in 4/4, cut every four bars,
// are at 28 of 32 when they start over; no multiple of seven before is one of
// eight.
func TestALayerAloneThatIsCut(t *testing.T) {
	s := in(PlainSignature(4, 4), LengthRule{Kind: Bars, N: 8}, cutEvery(4, "a", 3, 2, 2))
	settle(t, s)
	assert.Equal(t, "32 a [B1 cut] ||, 64 a", meetingsOf(t, s))
}

// Without a length a section with cuts lasts to where all that is cut starts
// over together: not to 90, but to 100; 4 and 6 bars of cuts to 12 bars.
func TestDefaultLengthWithCuts(t *testing.T) {
	for _, c := range []struct {
		layers []*Layer
		want   int
	}{
		{[]*Layer{cutEvery(10, "a", 4, 3, 2), layer("b", groups(6, 4))}, 100},
		{[]*Layer{cutEvery(4, "a", 9), cutEvery(6, "b", 11)}, 120},
		{[]*Layer{layer("a", groups(3, 2, 2, 3)), layer("b", groups(3, 3, 2, 2, 2))}, 60},
	} {
		s := in(fiveFour, LengthRule{Kind: Realignments, N: 1, Default: true}, c.layers...)
		settle(t, s)
		assert.Equal(t, c.want, eighths(t, s.Length))
	}
	first := in(fiveFour, LengthRule{Kind: Realignments, N: 1}, cutEvery(10, "a", 4, 3, 2), layer("b", groups(6, 4)))
	settle(t, first)
	assert.Equal(t, 90, eighths(t, first.Length), "as asked")
}

// Marks at the end: none with stop, on the landing bar with land, before the
// repeat with repeat; a section that another follows has none.
func TestTheEndIsNotMarked(t *testing.T) {
	for end, want := range map[End]string{Stop: "60", Land: "60 [B1] ||", Repeat: "60 [B1] ||"} {
		s := in(fiveFour, LengthRule{Kind: Realignments, N: 1}, layer("a", groups(3, 2, 2, 3)), layer("b", groups(3, 3, 2, 2, 2)))
		s.End = end
		settle(t, s)
		assert.Equal(t, want, meetingsOf(t, s))
	}
}

// Natural double bars stand four bars apart: loops of 20 and 10 in bars of ten
// meet every two bars, and every other time there is a double bar.
func TestDoubleBarsKeepTheirDistance(t *testing.T) {
	s := in(fiveFour, LengthRule{Kind: Bars, N: 9}, layer("a", groups(20)), layer("b", groups(10)))
	settle(t, s)
	assert.Equal(t, "20 [B1], 40 [B2] ||, 60 [B3], 80 [B4] ||", meetingsOf(t, s))
}

// What counts realignments counts both kinds; a plan's mark replaces either
// label, and a mark may not be one of the labels.
func TestPlacesCountBothKinds(t *testing.T) {
	s := in(fiveFour, LengthRule{Kind: Bars, N: 20}, cutEvery(10, "a", 4, 3, 2), layer("b", groups(6, 4)))
	s.Plan = []PlanEntry{{At: Place{Kind: AtRealignment, N: 2}, Mark: "Lock"}, {At: Place{Kind: AtRealignment, N: 3}, Text: "x"}}
	settle(t, s)
	assert.Equal(t, 100, eighths(t, s.Plan[0].Time))
	assert.Equal(t, 190, eighths(t, s.Plan[1].Time))
	assert.Equal(t, "90 [B1], 100 a [Lock] ||, 190 [B3], 200 a", meetingsOf(t, s))

	s.Plan = []PlanEntry{{At: Place{Kind: AtBar, N: 2}, Mark: "B2 cut"}}
	problems := refused(s)
	require.Len(t, problems, 1)
	assert.Equal(t, `the mark "B2 cut" stands twice in the piece`, problems[0].Text)
}

// Cycles count from each marked realignment, forced or natural.
func TestCyclesCountFromMarkedRealignments(t *testing.T) {
	s := in(fiveFour, LengthRule{Kind: Bars, N: 11}, cutEvery(10, "a", 4, 3, 2), layer("b", groups(6, 4)))
	settle(t, s)
	var numbers [2][]int
	for i := range numbers {
		for c := range s.Cycles(i) {
			numbers[i] = append(numbers[i], c.Number)
		}
	}
	assert.Equal(t, []int{1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 1, 2, 1, 2}, numbers[0])
	assert.Equal(t, []int{1, 2, 3, 4, 5, 6, 7, 8, 9, 1, 1}, numbers[1])
}
