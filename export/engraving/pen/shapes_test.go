package pen

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// extent is the box around something drawn, in 1/100 space.
type extent struct{ x0, y0, x1, y1 float64 }

func (e *extent) add(x, y float64) {
	e.x0, e.x1, e.y0, e.y1 = min(e.x0, x), max(e.x1, x), min(e.y0, y), max(e.y1, y)
}

var (
	commands = regexp.MustCompile(`[A-Za-z][^A-Za-z]*`)
	decimals = regexp.MustCompile(`-?[0-9]+(?:\.[0-9]+)?`)
)

// extentOf reads the text of a path as SVG defines it (1.1, 8.3), curves by 64 points of
// each, and says how far it reaches.
func extentOf(t *testing.T, path string) extent {
	e := extent{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
	var x, y, startX, startY float64
	for _, c := range commands.FindAllString(path, -1) {
		var n []float64
		for _, d := range decimals.FindAllString(c[1:], -1) {
			v, err := strconv.ParseFloat(d, 64)
			require.NoError(t, err)
			n = append(n, 10*v)
		}
		switch c[0] {
		case 'M':
			x, y = n[0], n[1]
			startX, startY = x, y
		case 'm':
			x, y = x+n[0], y+n[1]
			startX, startY = x, y
		case 'l':
			x, y = x+n[0], y+n[1]
		case 'c':
			for k := range 65 {
				s := float64(k) / 64
				u := 1 - s
				at := func(from, a, b, c float64) float64 { return from + 3*u*u*s*a + 3*u*s*s*b + s*s*s*c }
				e.add(at(x, n[0], n[2], n[4]), at(y, n[1], n[3], n[5]))
			}
			x, y = x+n[4], y+n[5]
		case 'a': // half an ellipse around the middle of its ends
			mx, my := x+n[5]/2, y+n[6]/2
			tilt := n[2] / 10 * math.Pi / 180
			for k := range 129 {
				s := float64(k) / 64 * math.Pi
				a, b := n[0]*math.Cos(s), n[1]*math.Sin(s)
				e.add(mx+a*math.Cos(tilt)-b*math.Sin(tilt), my+a*math.Sin(tilt)+b*math.Cos(tilt))
			}
			x, y = x+n[5], y+n[6]
		case 'z':
			x, y = startX, startY
		default:
			t.Fatalf("%c is no command of ours", c[0])
		}
		e.add(x, y)
	}
	return e
}

func extentOfSign(t *testing.T, s Sign, percent int) extent {
	return extentOf(t, drawnBy(func(p *Path) { p.Sign(s, 0, 0, percent) }))
}

// Each sign fills the box that those who set it reckon with. Widths and heights are those
// of the shapes' definitions, in 1/100 space: a space is the height of a head, rests hang
// from and stand on lines (common practice).
func TestSignsFillTheirBoxes(t *testing.T) {
	for name, c := range map[string]struct {
		sign Sign
		want extent
	}{
		"filled head":       {HeadBlack, extent{0, -47, 118, 47}}, // √(62²cos²25 + 43²sin²25) = 59, √(62²sin²25 + 43²cos²25) = 47
		"half head":         {HeadHalf, extent{0, -47, 118, 47}},
		"whole head":        {HeadWhole, extent{0, -50, 170, 50}},
		"cross":             {HeadCross, extent{0, -50, 112, 50}},
		"circled cross":     {HeadCircleCross, extent{2, -54, 110, 54}},
		"diamond":           {HeadDiamond, extent{0, -52, 118, 52}},
		"open diamond":      {HeadDiamondOpen, extent{0, -52, 118, 52}},
		"triangle":          {HeadTriangle, extent{0, -52, 118, 48}},
		"open triangle":     {HeadTriangleOpen, extent{0, -52, 118, 48}},
		"slash":             {HeadSlash, extent{0, -100, 170, 100}},
		"open slash":        {HeadSlashOpen, extent{0, -100, 230, 100}},
		"whole rest":        {RestWhole, extent{0, -100, 114, -50}},
		"half rest":         {restHalf, extent{0, -50, 114, 0}},
		"sharp":             {SignSharp, extent{0, -142, 102, 142}},
		"flat":              {SignFlat, extent{0, -175, 79, 76}},
		"natural":           {SignNatural, extent{0, -140, 68, 140}},
		"double sharp":      {SignDoubleSharp, extent{0, -50, 100, 50}},
		"double flat":       {SignDoubleFlat, extent{0, -175, 147, 76}},
		"accent":            {AccentMark, extent{-62, -92, 66, 0}},
		"staccato":          {StaccatoDot, extent{-20, -40, 20, 0}},
		"tenuto":            {TenutoLine, extent{-60, -16, 60, 0}},
		"marcato above":     {MarcatoUp, extent{-50, -110, 50, 0}},
		"marcato below":     {MarcatoDown, extent{-50, -110, 50, 0}},
		"fermata above":     {FermataUp, extent{-118, -118, 118, 0}},
		"fermata below":     {FermataDown, extent{-118, -118, 118, 0}},
		"augmentation dot":  {AugmentationDot, extent{0, -20, 40, 20}},
		"percussion clef":   {ClefPercussion, extent{0, -100, 108, 100}},
		"plus":              {PlusSign, extent{10, -40, 90, 40}},
		"flag of a stem up": {FlagUp, extent{0, 0, 96, 278}},
	} {
		got := extentOfSign(t, c.sign, FullSize)
		for k, side := range [4][2]float64{{c.want.x0, got.x0}, {c.want.y0, got.y0}, {c.want.x1, got.x1}, {c.want.y1, got.y1}} {
			assert.InDelta(t, side[0], side[1], 1.5, "%s, side %d: %v", name, k, got)
		}
	}
}

// A rest with hooks has one more every power, a space apart, as high as is reckoned. Its
// lowest hook reaches up to a fifth of a space over its left edge, which the air before a
// sign covers; on the right it keeps to its width.
func TestRestsFillTheirForms(t *testing.T) {
	hooks := map[int]int{3: 1, 4: 2, 5: 3, 6: 4, 7: 5}
	for power, form := range RestForms {
		got := extentOfSign(t, form.Sign, FullSize)
		assert.GreaterOrEqual(t, got.x0, -22.5, power)
		assert.LessOrEqual(t, got.x1, float64(form.Width), power)
		assert.GreaterOrEqual(t, got.x1-got.x0, 0.8*float64(form.Width), power)
		assert.InDelta(t, float64(-form.Up), got.y0, 6, "top of power %d", power)
		assert.InDelta(t, float64(form.Down), got.y1, 6, "foot of power %d", power)
		assert.Equal(t, form.Width, RestWidth(power))
		if n := hooks[power]; n > 0 {
			discs := regexp.MustCompile(`a2\.6 2\.6`).FindAllString(drawnBy(func(p *Path) { p.Sign(form.Sign, 0, 0, FullSize) }), -1)
			assert.Len(t, discs, 2*n, "hooks of power %d, two half circles each", power)
		}
	}
}

// Digits are two spaces high about the middle line and narrower than their room in a time
// signature (156/100, of 1 132/100).
func TestDigitsFitTimeSignatures(t *testing.T) {
	for c := '0'; c <= '9'; c++ {
		got := extentOfSign(t, Digit(c), FullSize)
		room := 156.0
		if c == '1' {
			room = 132
		}
		assert.InDelta(t, -100, got.y0, 4, "%c", c)
		assert.InDelta(t, 100, got.y1, 4, "%c", c)
		assert.GreaterOrEqual(t, got.x0, 0.0, "%c", c)
		assert.Less(t, got.x1, room, "%c", c)
	}
}

// A 9 is a 6 turned by half a turn in a field 136 wide, a flag down is one up mirrored.
func TestTurnedSigns(t *testing.T) {
	six, nine := extentOfSign(t, Digit('6'), FullSize), extentOfSign(t, Digit('9'), FullSize)
	assert.InDelta(t, 136-six.x1, nine.x0, 1.5)
	assert.InDelta(t, 136-six.x0, nine.x1, 1.5)
	assert.InDelta(t, -six.y1, nine.y0, 1.5)
	for _, pair := range [][2]Sign{{FlagUp, FlagDown}, {FlagUpShort, flagDownShort}} {
		up, down := extentOfSign(t, pair[0], FullSize), extentOfSign(t, pair[1], FullSize)
		assert.InDelta(t, up.x1, down.x1, 4)
		assert.Greater(t, up.y1, 200.0, "a flag hangs from the tip of its stem")
		assert.InDelta(t, -down.y0, up.y1, 30)
	}
}

// The clefs name their lines: the dots of F are a space apart about its line, C is the
// same above and below it, and G reaches two spaces and a half below it, over four above.
func TestClefsNameTheirLines(t *testing.T) {
	f := drawnBy(func(p *Path) { p.Sign(ClefF, 0, 0, FullSize) })
	const dot = "a2 2 0 1 1 4 0a2 2 0 1 1-4 0z"
	assert.True(t, strings.HasSuffix(f, "-5.2"+dot+"m0 10"+dot), "two dots, a space apart: %s", f)
	for clef, want := range map[Sign]extent{ClefG: {-138, -447, 105, 270}, ClefF: {-63, -107, 222, 247}, ClefC: {0, -202, 243, 202}} {
		got := extentOfSign(t, clef, FullSize)
		for k, side := range [4][2]float64{{want.x0, got.x0}, {want.y0, got.y0}, {want.x1, got.x1}, {want.y1, got.y1}} {
			assert.InDelta(t, side[0], side[1], 8, "clef %d, side %d: %v", clef, k, got)
		}
	}
}

// Every sign has a shape, drawn from its first point on wherever it stands, and in each
// size as much smaller.
func TestEverySignInEverySize(t *testing.T) {
	for s := noSign + 1; s < signCount; s++ {
		require.NotEmpty(t, shapes()[s], "sign %d has no shape", s)
		full := extentOfSign(t, s, FullSize)
		for _, percent := range []int{SmallSize, TempoSize} {
			small := extentOfSign(t, s, percent)
			part := float64(percent) / 100
			assert.InDelta(t, (full.x1-full.x0)*part, small.x1-small.x0, 6, "width of %d in %d %%", s, percent)
			assert.InDelta(t, (full.y1-full.y0)*part, small.y1-small.y0, 6, "height of %d in %d %%", s, percent)
		}
		moved := extentOf(t, drawnBy(func(p *Path) { p.Sign(s, 1000, -500, FullSize) }))
		assert.InDelta(t, full.x0+1000, moved.x0, 0.01)
		assert.InDelta(t, full.y1-500, moved.y1, 0.01)
	}
}

// A brush along a straight line leaves a bar as wide as it is: 20 about y = 0.
func TestBrush(t *testing.T) {
	dx, dy, text := brush(touch{0, 0, 20}, touch{100, 0, 20}, touch{200, 0, 20}).relative()
	assert.Equal(t, [2]Unit{0, -10}, [2]Unit{dx, dy})
	got := extentOf(t, "M0-1"+string(text))
	assert.Equal(t, extent{0, -10, 200, 10}, got)
}

// A hole turns the other way round than what it is cut from, so that it stays empty
// (SVG 1.1, 11.3, nonzero).
func TestHoles(t *testing.T) {
	assert.Equal(t, Unit(1), ellipse(0, 0, 5, 5, upright, false)[1].numbers[4])
	assert.Equal(t, Unit(0), ellipse(0, 0, 5, 5, upright, true)[1].numbers[4])
}

// Heads that look the same from both sides, and upside down, have points that do, and the
// same holes.
func TestSymmetricalHeads(t *testing.T) {
	for _, s := range []Sign{HeadCross, HeadDiamond, HeadDiamondOpen, SignDoubleSharp, HeadCircleCross} {
		o := shapes()[s]
		points := map[[2]Unit]bool{}
		low, high := Unit(1000), Unit(-1000)
		for i, step := range o {
			if n := step.numbers; step.cmd == 'L' || step.cmd == 'M' && o[i+1].cmd == 'L' {
				points[[2]Unit{n[0], n[1]}] = true
				low, high = min(low, n[0]), max(high, n[0])
			}
		}
		for p := range points {
			assert.True(t, points[[2]Unit{low + high - p[0], p[1]}], "sign %d: %v has no other side", s, p)
			assert.True(t, points[[2]Unit{p[0], -p[1]}], "sign %d: %v upside down", s, p)
		}
	}
	for s, holes := range map[Sign]int{HeadHalf: 1, HeadWhole: 1, HeadCircleCross: 1, digit0: 1, HeadBlack: 0, StaccatoDot: 0} {
		n := 0
		for _, step := range shapes()[s] {
			if step.cmd == 'A' && step.numbers[4] == 0 {
				n++
			}
		}
		assert.Equal(t, 2*holes, n, "sign %d: half circles the other way round", s)
	}
}

// Stems meet the shape of their heads: at a filled head's side, a cross's corner, a
// triangle's foot from below its middle.
func TestWhereStemsBegin(t *testing.T) {
	for head, want := range map[Sign][3]Unit{
		HeadBlack: {118, 18, 18}, HeadHalf: {118, 18, 18}, HeadWhole: {170, 18, 18}, HeadCross: {112, 44, 44}, HeadCircleCross: {112, 8, 8},
		HeadDiamond: {118, 8, 8}, HeadDiamondOpen: {118, 8, 8}, HeadTriangle: {118, -40, 44}, HeadTriangleOpen: {118, -40, 44},
		HeadSlash: {170, 80, 80}, HeadSlashOpen: {230, 80, 80},
	} {
		assert.Equal(t, want, [3]Unit{HeadWidth(head), StemInset(head, true), StemInset(head, false)}, head)
	}
}
