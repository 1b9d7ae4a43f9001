package page

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

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
	v := gather(settled(t, 8, s), 0, nil)
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
		v := gather(settled(t, 8, s), 0, nil)
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
	assert.Equal(t, "5/4, quarter = 132, 12 bars, 27.3 s, played twice", gather(settled(t, 8, s), 0, nil).facts()[0])
}

// Strokes nearer than 8 units are drawn thin: five in the time of four sixteenths
// against sixteenths are a 20th of a quarter apart.
func TestDenseComposite(t *testing.T) {
	classes := func(s *score.Section, grid beat.Grid) (all []string) {
		v := gather(settled(t, grid, s), 0, nil)
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

// Everything is printed: both lines of the round's figure twice, that is all 120
// eighths in lines that follow one another, and the chart block by block.
func TestSheet(t *testing.T) {
	sheet := gather(settled(t, 8, round()), 0, nil).show("legend\nmore\n\nrow 1\nrow 2\n\nlast\n").Sheet
	assert.Equal(t, [][]string{{"legend\nmore", "row 1\nrow 2", "last"}}, sheet.Blocks)
	from := "0"
	for _, system := range sheet.Systems {
		drawn := readSVG(t, string(system))
		assert.Equal(t, from, drawn[0].attr["data-from"])
		from = drawn[0].attr["data-to"]
	}
	assert.Equal(t, "120", from)
	assert.Empty(t, sheet.Instead)
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
	v := gather(settled(t, 8, s), 0, nil)
	bars := func(v *view, at beat.Time) []string { return readSVG(t, v.still(at, v.strikes())[0]).texts("bar") }
	assert.Equal(t, []string{"5", "6"}, bars(v, 35))
	assert.Equal(t, []string{"9"}, bars(v, 70))
	assert.Equal(t, []string{"6", "7"}, bars(gather(settled(t, 8, round()), 0, nil), 60))
}

// A line of 22 rows is 22·66 and 26 units high, 1,560 pixels on paper, of which a
// page has 900: its letters would be made less than three fifths as large, so the
// chart stands in its place. Of 20 rows, 1,421 pixels, the figure is made smaller.
func TestSheetOfManyLayers(t *testing.T) {
	sheet := func(layers int, chart string) sheet {
		s := section(score.PlainSignature(4, 4), 1)
		for i := range layers {
			s.Layers = append(s.Layers, layer("Lock "+score.LayerLetter(i), "", []int{3, 2}))
		}
		s.LengthRule = score.LengthRule{Kind: score.Bars, N: 4}
		return gather(settled(t, 8, s), 0, nil).show(chart).Sheet
	}
	many := sheet(22, "row\n")
	assert.Empty(t, many.Systems)
	assert.Equal(t, [][]string{{"row"}}, many.Blocks)
	assert.Equal(t, "So many layers would be too small to read in the figure, which is on the page; the chart has them all.", many.Instead)
	assert.Len(t, sheet(20, "row\n").Systems, 1)
	assert.Len(t, sheet(22, "").Systems, 1, "without a chart there is only the figure")
}

// Beats are numbered where there is room: in 5/4 at 26.13 units an eighth all of
// them, at a third of that none beside the bar's own number.
func TestBeatsAreNumbered(t *testing.T) {
	v := gather(settled(t, 8, round()), 0, nil)
	systems := v.systems(wide)
	drawn := readSVG(t, v.drawSystem(v.frame(0, systems, wide)))
	assert.Equal(t, []string{"2", "3", "4", "5", "2", "3", "4", "5", "2", "3", "4", "5"}, drawn.texts("beat"))
	tight := wide
	tight.tightest, tight.loosest = 3*one, 3*one // a beat is 6 units, a digit with its gap 10
	systems = v.systems(tight)
	drawn = readSVG(t, v.drawSystem(v.frame(0, systems, tight)))
	assert.Less(t, len(drawn.texts("beat")), 4*len(drawn.texts("bar")))
}
