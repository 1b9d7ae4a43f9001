package page

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/layout/rows"
	"tieover/score"
	"tieover/score/beat"
)

// Two marks of the plan an eighth, 26 units, apart and as wide as 48 and 132
// units cannot stand beside each other: the second one takes a lane of its own,
// over the first. None is left out, and each has a line to its place.
func TestMarksSideBySide(t *testing.T) {
	s := round()
	s.Plan = []score.PlanEntry{
		{At: score.Place{Kind: score.AtPulse, N: 4}, Mark: "water"},
		{At: score.Place{Kind: score.AtPulse, N: 5}, Mark: "the upper gates"},
		{At: score.Place{Kind: score.AtPulse, N: 25}, Mark: "open"},
	}
	v := gather(settled(t, 8, s), 0)
	systems := v.systems(wide)
	f := v.frame(0, systems, wide)
	assert.Equal(t, 2, f.marks)
	drawn := readSVG(t, v.drawSystem(f))
	assert.ElementsMatch(t, []string{"water", "the upper gates", "open"}, drawn.texts("label"))
	lanes := map[string]string{}
	for _, e := range drawn {
		if e.class == "label" {
			lanes[e.text] = e.attr["y"]
		}
	}
	assert.Equal(t, map[string]string{"the upper gates": "15", "water": "39", "open": "39"}, lanes)
	assert.Subset(t, drawn.starts("tick"), xs(systems[0], 3, 4, 24))
}

// The end of a repeated section has the two dots of a repeat in every row, and
// the facts say that it sounds twice.
func TestRepeatShown(t *testing.T) {
	s := round()
	again := func() int {
		n := 0
		v := gather(settled(t, 8, s), 0)
		systems := v.systems(wide)
		for i := range systems {
			n += strings.Count(v.drawSystem(v.frame(i, systems, wide)), `class="again"`)
		}
		return n
	}
	assert.Zero(t, again())
	s.End = score.Repeat
	assert.Equal(t, 2*2, again())
	// 120 eighths at 132 quarters a minute: 60·60/132 = 27.27 s
	assert.Equal(t, "5/4, quarter = 132, 12 bars, 27.3 s, played twice", gather(settled(t, 8, s), 0).facts()[0])
}

// Strokes nearer than 8 units are drawn thin: five in the time of four sixteenths
// against sixteenths are a 20th of a quarter apart.
func TestDenseComposite(t *testing.T) {
	classes := func(s *score.Section, grid beat.Grid) (all []string) {
		v := gather(settled(t, grid, s), 0)
		for _, e := range readSVG(t, v.drawComposite(v.frame(0, v.systems(wide), wide), v.strikes())) {
			if strings.HasPrefix(e.class, "hit") {
				all = append(all, e.class)
			}
		}
		return all
	}
	assert.Equal(t, []string{"hit", "hit both"}, classes(round(), 8))
	fives, fours := layer("Fives", "", []int{1}), layer("Fours", "", []int{1})
	fives.Pulse = beat.Pulse{Base: beat.Of(1, 16), Actual: 5, Normal: 4}
	fours.Pulse = beat.Plain(beat.Of(1, 16))
	s := section(score.PlainSignature(4, 4), 1, fives, fours)
	s.LengthRule = score.LengthRule{Kind: score.Bars, N: 2}
	assert.Equal(t, []string{"hit dense", "hit both dense"}, classes(s, 80))
}

// The sheet has the chart's first lines whenever they fit at all, names every
// layer, and says what it leaves out.
func TestSheet(t *testing.T) {
	chart := strings.Repeat(strings.Repeat("row\n", 10)+"\n", 6)
	v := gather(settled(t, 8, round()), 0)
	sheet := v.show(chart).Sheet
	assert.NotEmpty(t, sheet.Systems)
	assert.Len(t, sheet.Clocks, 2)
	assert.Len(t, sheet.Drift, 22)
	assert.GreaterOrEqual(t, strings.Count(sheet.Chart, "row"), 10)
	assert.Zero(t, strings.Count(sheet.Chart, "row")%10, "whole blocks only")
	assert.Equal(t, "The figure goes on from bar 7 on the page.", sheet.Rest)

	s := section(score.PlainSignature(7, 8), 1)
	for i := range 12 {
		s.Layers = append(s.Layers, layer("Lock "+rows.Letter(i), "", []int{3, i + 1}))
	}
	s.LengthRule = score.LengthRule{Kind: score.Bars, N: 60}
	sheet = gather(settled(t, 8, s), 0).show(chart).Sheet
	require.Len(t, sheet.Facts, 14, "the meter, the realignment and twelve layers")
	assert.Contains(t, sheet.Facts[13], "Lock l")
	assert.NotEmpty(t, sheet.Rest)
}

// Fractions are mixed numbers, as the chart has them.
func TestPulsesWords(t *testing.T) {
	eighth, quarter := beat.Plain(beat.Of(1, 8)), beat.Plain(beat.Of(1, 4))
	septuplet := beat.Pulse{Base: beat.Of(1, 8), Actual: 7, Normal: 4}
	for _, c := range []struct {
		n    beat.Span
		p    beat.Pulse
		want string
	}{
		{beat.Of(1, 1), eighth, "1 eighth"}, {beat.Of(2, 1), eighth, "2 eighths"}, {beat.Of(5, 2), eighth, "2 1/2 eighths"},
		{beat.Of(7, 2), septuplet, "3 1/2 eighths in 7:4"}, {beat.Of(1, 2), eighth, "1/2 of an eighth"},
		{beat.Of(2, 3), quarter, "2/3 of a quarter"},
	} {
		assert.Equal(t, c.want, pulsesWords(c.n, c.p))
	}
}

// 5 against 7 eighths meet after 35, inside the fifth bar of 4/4 (32 to 40), and
// after 70, inside the ninth and last: the stills are bars 5 and 6, and bar 9.
// The round meets on a barline: bars 6 and 7.
func TestStills(t *testing.T) {
	s := section(score.PlainSignature(4, 4), 2, layer("Gate", "", []int{3, 2}), layer("Weir", "", []int{2, 2, 3}))
	v := gather(settled(t, 8, s), 0)
	bars := func(v *view, at beat.Time) []string { return readSVG(t, v.still(at, v.strikes())[0]).texts("bar") }
	assert.Equal(t, []string{"5", "6"}, bars(v, 35))
	assert.Equal(t, []string{"9"}, bars(v, 70))
	assert.Equal(t, []string{"6", "7"}, bars(gather(settled(t, 8, round()), 0), 60))
}

// A fact with a name of 120 letters takes three lines of the sheet's column, and a
// title of 100 two: what comes after has that much less room.
func TestLongNamesOnTheSheet(t *testing.T) {
	v := gather(settled(t, 8, round()), 0)
	short := v.headHeight(v.facts())
	// title 26 + 18 below it, 4 facts in two columns, and a line to spare
	assert.Equal(t, 26+18+17*3, short)
	v.rows[0].layer.Name = strings.Repeat("m", 120)
	// 120 letters and 27 more, 147·11·0.58 = 938 px in lines of 344: 3 lines; 6 in all in two columns, and 3 to spare
	assert.Equal(t, 26+18+17*(3+3), v.headHeight(v.facts()))
	v.title = strings.Repeat("m", 100) // with the section's name 111·18·0.58 = 1159 px in lines of 718
	assert.Equal(t, 2*26+18+17*(3+3), v.headHeight(v.facts()))
}

// A line of 20 rows is 20·66 units and more high, which is 1,394 pixels on the sheet
// and would be made less than half as large: the chart stands in its place. Of 14
// rows, 66·14 and 26 more, 1,003 pixels, the figure is made smaller.
func TestSheetOfManyLayers(t *testing.T) {
	sheet := func(layers int, name, chart string) sheet {
		s := section(score.PlainSignature(4, 4), 1)
		for i := range layers {
			s.Layers = append(s.Layers, layer(name+rows.Letter(i), "", []int{3, 2}))
		}
		s.LengthRule = score.LengthRule{Kind: score.Bars, N: 4}
		return gather(settled(t, 8, s), 0).show(chart).Sheet
	}
	chart := strings.Repeat("row\n", 45) + "\n" + strings.Repeat("row\n", 45)
	many := sheet(20, "Lock ", chart)
	assert.Empty(t, many.Systems)
	assert.Equal(t, 45, strings.Count(many.Chart, "row"))
	assert.Equal(t, "So many layers would be too small to read in the figure; it is on the page.", many.Rest)
	assert.Len(t, many.Facts, 2)
	assert.Len(t, sheet(14, "Lock ", chart).Systems, 1)
	assert.Len(t, sheet(20, "Lock ", "").Systems, 1, "without a chart there is only the figure")
	assert.Len(t, sheet(20, "Lock ", strings.Repeat("row\n", 90)).Systems, 1, "nor where not even a block of it fits")

	// facts of three lines each: 26+18+17·(n·3/2+3) may be 270 at most
	long := sheet(14, strings.Repeat("m", 116)+" ", chart)
	assert.Less(t, len(long.Facts), 10)
	assert.Greater(t, len(long.Facts), 2)
}
