package pen

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Widths by hand, of a size of 1000: i and blanks 300, r 370, m 830, capitals 690, other
// letters 500, flats and sharps 480, Han 1000, accents and isolates nothing; bold has a
// twentieth more.
func TestWidthsOfTexts(t *testing.T) {
	f := Face{Size: 1000}
	for text, want := range map[string]Unit{
		"": 0, "a": 500, "i ": 600, "r": 370, "m": 830, "M": 830, "A": 690, "I": 300, "♭♮♯": 1440, "水": 1000,
		"e\u0301": 500, "\u2068a\u2069": 500, "Bar 1": 690 + 500 + 370 + 300 + 500,
	} {
		assert.Equal(t, want, f.Width(text), text)
	}
	bold := f
	bold.bold = true
	assert.Equal(t, Unit(525), bold.Width("a"))
	assert.Equal(t, Unit(720), f.Rise())
	assert.Equal(t, Unit(220), f.Sink())
}

// x names the start, the middle or the end of a text.
func TestSpans(t *testing.T) {
	for anchor, want := range map[Anchor][2]Unit{atStart: {70, 1070}, AtMiddle: {-430, 570}, AtEnd: {-930, 70}} {
		x0, x1 := Face{Size: 1000, Anchor: anchor}.Span(70, "ab")
		assert.Equal(t, want, [2]Unit{x0, x1})
	}
}

// A text too wide for its room is set smaller, just so that it fits, but never in a size
// below 10; one that fits is left alone.
func TestTextsWithinTheirRoom(t *testing.T) {
	f := Face{Size: 100}
	assert.Equal(t, f, f.Within(50, "a"))
	assert.Equal(t, Unit(50), f.Within(100, "aaaa").Size)
	assert.Equal(t, Unit(49), f.Within(99, "aaaa").Size)
	assert.Equal(t, Unit(10), f.Within(1, "aaaa").Size)
}

func TestInk(t *testing.T) {
	ink := func(put func(k *Ink)) string {
		var k Ink
		put(&k)
		return string(k)
	}
	assert.Equal(t, "<path d=\"M1 2z\"/>\n", ink(func(k *Ink) { k.Fill(Path("M1 2z")) }))
	assert.Equal(t, "<path fill=\"none\" stroke=\"currentColor\" stroke-width=\"1.1\" d=\"M1 2h3\"/>\n", ink(func(k *Ink) { k.Stroke(Path("M1 2h3"), StaffLine) }))
	assert.Equal(t, "<g transform=\"translate(10 -2.5)\">\nx</g>\n", ink(func(k *Ink) { k.Group(100, -25, []byte("x")) }))
	// 500 + 300 thousandths of 145 are 116.
	assert.Equal(t, "<text x=\"1\" y=\"-2\" font-size=\"14.5\" textLength=\"11.6\" lengthAdjust=\"spacingAndGlyphs\">a.</text>\n",
		ink(func(k *Ink) { k.Text(10, -20, "a.", SmallFace) }))
	assert.Equal(t, "<text x=\"0\" y=\"0\" font-size=\"42\" font-weight=\"bold\" text-anchor=\"middle\">A &amp; B</text>\n",
		ink(func(k *Ink) { k.Text(0, 0, "A & B", TitleFace) }), "a title takes the width that its font gives it")
	assert.Equal(t, "<text x=\"0\" y=\"0\" font-size=\"15\" font-style=\"italic\" text-anchor=\"end\" textLength=\"7.5\" lengthAdjust=\"spacingAndGlyphs\">1</text>\n",
		ink(func(k *Ink) { k.Text(0, 0, "1", NumberFace) }))
	for _, nothing := range []func(k *Ink){func(k *Ink) { k.Fill(nil) }, func(k *Ink) { k.Stroke(nil, 5) }, func(k *Ink) { k.Text(0, 0, "", TitleFace) }} {
		assert.Empty(t, ink(nothing))
	}
}

// What XML reads as markup, or would change as white space, is escaped; what it cannot
// hold is shown as the sign for that (XML 1.0, 2.2 and 2.4).
func TestEscaped(t *testing.T) {
	for text, want := range map[string]string{
		"plain ♭ 水": "plain ♭ 水", "a<b>&c": "a&lt;b&gt;&amp;c", `"it's"`: "&#34;it&#39;s&#34;", "a\tb\nc\rd": "a&#x9;b&#xA;c&#xD;d", "a\x01": "a\uFFFD",
	} {
		assert.Equal(t, want, Escaped(text))
	}
}
