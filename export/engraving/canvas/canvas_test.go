package canvas

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/export/engraving/content"
	"tieover/export/engraving/pen"
)

// blank is a canvas of one staff, 1000 wide, with nothing between 200 above and 200 below
// the middle line.
func blank(watch bool) *Canvas {
	c := New([]content.Staff{{Number: 1, Lines: 5}}, 1000, watch)
	for range 1000/Cell + 1 {
		c.Staves[0].Up = append(c.Staves[0].Up, -200)
		c.Staves[0].Down = append(c.Staves[0].Down, 200)
	}
	return &c
}

// A skyline has steps of half a space; what touches one takes it whole, and nothing
// beyond the ends is asked for.
func TestSkyline(t *testing.T) {
	st := &blank(false).Staves[0]
	st.Add(100, 149, -300, 250)
	st.Add(400, 450, 500, -250) // its edges in either order
	for _, c := range []struct{ x0, x1, up, down pen.Unit }{
		{0, 99, -200, 200}, {0, 100, -300, 250}, {149, 150, -300, 250}, {150, 399, -200, 200}, {450, 460, -250, 500}, {500, 900, -200, 200},
		{-500, -100, -200, 200}, {950, 5000, -200, 200}, {-500, 5000, -300, 500},
	} {
		assert.Equal(t, c.up, st.Outside(pen.Upwards, c.x0, c.x1), "%v", c)
		assert.Equal(t, c.down, st.Outside(pen.Downwards, c.x0, c.x1), "%v", c)
	}
	st.Add(-900, -800, -700, 0)
	assert.Equal(t, pen.Unit(-700), st.Outside(pen.Upwards, 0, 10), "what is drawn before the line counts at its first step")
}

// hung returns a sign that keeps where it was drawn.
func hung(x0, x1, up, down pen.Unit, at *pen.Unit) Hung {
	return Hung{X0: x0, X1: x1, Up: up, Down: down, Draw: func(y pen.Unit) { *at = y }}
}

// By hand. Words keep 50 from what is inside: their foot, 20 deep, is at -200 - 50 - 20 =
// -270 above, their head, 100 high, at 200 + 50 + 100 = 350 below. The next, which begin
// less than 20 after the first end, hang at a further height: -270 - 100 - 50 - 20 = -440;
// those at 560 hang beside the first.
func TestLaneOfWords(t *testing.T) {
	c := blank(false)
	var first, second, third, below pen.Unit
	c.HangLane(0, WordLane, pen.Upwards, []Hung{hung(560, 700, 100, 20, &third), hung(100, 300, 100, 20, &first), hung(319, 500, 100, 20, &second)})
	c.HangLane(0, WordLane, pen.Downwards, []Hung{hung(100, 300, 100, 20, &below)})
	assert.Equal(t, []pen.Unit{-270, -440, -270, 350}, []pen.Unit{first, second, third, below})
	assert.Equal(t, pen.Unit(-540), c.Staves[0].Outside(pen.Upwards, 330, 480))
	assert.Equal(t, pen.Unit(370), c.Staves[0].Outside(pen.Downwards, 100, 300))
}

// All of one height hang as far out as the highest thing under one of them asks, with 25
// to each side of a sign: -600 - 50 - 20.
func TestOneHeightForNeighbors(t *testing.T) {
	c := blank(false)
	c.Staves[0].Add(520, 520, -600, 0)
	var first, second pen.Unit
	c.HangLane(0, WordLane, pen.Upwards, []Hung{hung(100, 300, 100, 20, &first), hung(330, 480, 100, 20, &second)})
	assert.Equal(t, []pen.Unit{-670, -670}, []pen.Unit{first, second})
}

// Brackets may meet with their ends: 20 apart less what both give.
func TestSlack(t *testing.T) {
	for slack, want := range map[pen.Unit]pen.Unit{30: -245, 19: -320} {
		c := blank(true)
		var first, second pen.Unit
		a, b := hung(100, 300, 30, 0, &first), hung(290, 500, 30, 0, &second)
		a.Slack, b.Slack = 30, slack
		c.HangLane(0, CycleLane, pen.Upwards, []Hung{a, b})
		assert.Equal(t, []pen.Unit{-245, want}, []pen.Unit{first, second}, "slack %d", slack)
		assert.Equal(t, Box{"mark", 0, 130, -275, 270, -245}, c.Boxes[0])
	}
}

// Lanes follow one another outwards, whatever the order of adding, each with its own
// distance: 30, 45, 50 for chords, words and boxes, 60 on top; every sign is 10 high.
func TestLanesFollowOneAnother(t *testing.T) {
	c := blank(false)
	var h Hanging
	at := make([]pen.Unit, laneCount)
	for k := laneCount - 1; k >= 0; k-- {
		if k != DynamicLane {
			h.Add(k, pen.Upwards, hung(100, 200, 10, 0, &at[k]))
		}
	}
	h.Add(DynamicLane, pen.Downwards, hung(100, 200, 10, 0, &at[DynamicLane]))
	c.Hang(0, &h)
	assert.Equal(t, []pen.Unit{-230, -285, 260, -345, -405, -465, -535}, at)
}

// Words begin at their place, or so far before it that they end with the line; those that
// end at their place do so. In a size of 165, "aaaa" is 4 × 500 × 165/1000 = 330 wide.
func TestWordsEndWithTheLine(t *testing.T) {
	c := blank(false)
	face := pen.TechniqueFace
	h := c.Words(0, 100, "aaaa", face)
	assert.Equal(t, []pen.Unit{100, 430, 118, 36}, []pen.Unit{h.X0, h.X1, h.Up, h.Down})
	h = c.Words(0, 900, "aaaa", face)
	assert.Equal(t, []pen.Unit{670, 1000}, []pen.Unit{h.X0, h.X1})
	h.Draw(-300)
	assert.Equal(t, "<text x=\"67\" y=\"-30\" font-size=\"16.5\" textLength=\"33\" lengthAdjust=\"spacingAndGlyphs\">aaaa</text>\n", string(c.Staves[0].Texts))
	assert.Equal(t, []Box{{"label", 0, 670, -418, 1000, -264}}, c.Labels)
	face.Anchor = pen.AtEnd
	h = c.Words(0, 1100, "aaaa", face)
	assert.Equal(t, []pen.Unit{770, 1100}, []pen.Unit{h.X0, h.X1})
}

// A text wider than the line is set smaller: 20 are left of the 1000.
func TestWordsFitTheLine(t *testing.T) {
	h := blank(false).Words(0, 100, "aaaaaaaaaaaaaaaaaaaaaaaa", pen.TechniqueFace)
	assert.LessOrEqual(t, h.X1-h.X0, pen.Unit(980))
	assert.GreaterOrEqual(t, h.X1-h.X0, pen.Unit(960))
	assert.LessOrEqual(t, h.X1, pen.Unit(1000))
}

// By hand: bold "aa" in 165 is 165 + 8 wide; 40 to each side make 253. Its top is 118 + 40
// above, its foot 36 + 40 - 20 below.
func TestBoxedWords(t *testing.T) {
	c := blank(false)
	h := c.BoxedWords(0, 100, "aa", pen.BoxedFace)
	assert.Equal(t, []pen.Unit{100, 353, 158, 56}, []pen.Unit{h.X0, h.X1, h.Up, h.Down})
	h.Draw(-400)
	assert.Equal(t, "M10-55.8H35.3V-34.4H10z", string(c.Staves[0].Strokes))
	assert.Equal(t, "<text x=\"14\" y=\"-40\" font-size=\"16.5\" font-weight=\"bold\" textLength=\"17.3\" lengthAdjust=\"spacingAndGlyphs\">aa</text>\n", string(c.Staves[0].Texts))
	assert.Equal(t, []Box{{"label", 0, 100, -558, 353, -344}}, c.Labels)
	assert.Equal(t, pen.Unit(747), c.BoxedWords(0, 900, "aa", pen.BoxedFace).X0)
	assert.Equal(t, pen.Unit(0), c.BoxedWords(0, -50, "aa", pen.BoxedFace).X0)
}

// Places are kept for who watches, for nobody else; they are taken either way.
func TestWatched(t *testing.T) {
	for watch, want := range map[bool][]Box{true: {{"head", 0, 100, -350, 200, -250}}, false: nil} {
		c := blank(watch)
		c.Occupy("head", 0, 100, -250, 200, -350)
		assert.Equal(t, want, c.Boxes)
		assert.Equal(t, pen.Unit(-350), c.Staves[0].Outside(pen.Upwards, 100, 200))
	}
}
