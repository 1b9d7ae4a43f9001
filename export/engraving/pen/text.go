package pen

import (
	"encoding/xml"
	"strings"
	"unicode"
)

// Face is how a text is set: in the reader's serif face. Music never depends on a
// font, so a text in it is stretched or squeezed to the width that was reckoned.
type Face struct {
	Size         Unit
	bold, italic bool
	Anchor       Anchor
	loose        bool // it takes the width that the font gives it; others get that which was reckoned
}

// Anchor is the place of a text that its x names.
type Anchor int

const (
	atStart Anchor = iota
	AtMiddle
	AtEnd
)

// The faces of all texts.
var (
	TitleFace     = Face{loose: true, Size: 420, bold: true, Anchor: AtMiddle}
	SubtitleFace  = Face{loose: true, Size: 240, Anchor: AtMiddle}
	CreditFace    = Face{loose: true, Size: 210, Anchor: AtEnd}
	PlayerFace    = Face{loose: true, Size: 230}
	RightsFace    = Face{loose: true, Size: 150, Anchor: AtMiddle}
	NameFace      = Face{Size: 170, Anchor: AtEnd}
	NumberFace    = Face{Size: 150, italic: true, Anchor: AtEnd} // of bars
	LabelFace     = Face{Size: 190, bold: true}
	BoxedFace     = Face{Size: 165, bold: true}
	WordsFace     = Face{Size: 165, italic: true}
	TechniqueFace = Face{Size: 165}
	TakeUpFace    = Face{Size: 165, bold: true}
	SmallFace     = Face{Size: 145} // of analysis
	BoldFace      = Face{Size: 145, bold: true}
	DynamicFace   = Face{Size: 240, bold: true, italic: true, Anchor: AtMiddle}
	ChordFace     = Face{Size: 185}
	TempoFace     = Face{Size: 190, bold: true}
	RatioFace     = Face{Size: 130, italic: true}
	TupletFace    = Face{Size: 165, bold: true, italic: true, Anchor: AtMiddle}
	LyricFace     = Face{Size: 160, Anchor: AtMiddle}
	TrillFace     = Face{Size: 210, bold: true, italic: true, Anchor: AtMiddle}
	FretFace      = Face{Size: 165, Anchor: AtMiddle}
	TabFace       = Face{bold: true, Anchor: AtMiddle}
	OctaveFace    = Face{Size: 150, italic: true, Anchor: AtMiddle} // the 8 of a clef
)

// Rise is how far letters reach above their foot.
func (f Face) Rise() Unit { return f.Size.Percent(72) }

// Sink is how far letters reach below their foot.
func (f Face) Sink() Unit { return f.Size.Percent(22) }

// Width reckons how wide a text is: careful averages of a serif face.
func (f Face) Width(s string) Unit {
	thousandths := 0
	for _, r := range s {
		switch {
		case unicode.Is(unicode.Mn, r) || unicode.Is(unicode.Cf, r):
		case r >= '♭' && r <= '♯': // flat, natural, sharp
			thousandths += 480
		case r >= 0x1100:
			thousandths += 1000
		case strings.ContainsRune("iljt.,;:'!|()[]I/ ", r):
			thousandths += 300
		case strings.ContainsRune("frs-", r):
			thousandths += 370
		case strings.ContainsRune("mMwW", r):
			thousandths += 830
		case unicode.IsUpper(r):
			thousandths += 690
		default:
			thousandths += 500
		}
	}
	w := Unit(thousandths) * f.Size / 1000
	if f.bold {
		w += w / 20
	}
	return w
}

// Within makes a face smaller if a text would be wider than its room.
func (f Face) Within(room Unit, s string) Face {
	for w := f.Width(s); w > room && f.Size > 10; w = f.Width(s) {
		f.Size = max(10, min(f.Size-1, f.Size*room/w))
	}
	return f
}

// Span is where a text at x begins and ends.
func (f Face) Span(x Unit, s string) (x0, x1 Unit) {
	w := f.Width(s)
	switch f.Anchor {
	case AtMiddle:
		x -= w / 2
	case AtEnd:
		x -= w
	}
	return x, x + w
}

// Ink collects SVG elements.
type Ink []byte

// Put puts what is SVG already.
func (k *Ink) Put(s string) { *k = append(*k, s...) }

// Number puts a length as it is drawn.
func (k *Ink) Number(u Unit) { *k = u.appendTo(*k) }

// Fill puts a filled path, if there is anything in it.
func (k *Ink) Fill(p Path) {
	if len(p) > 0 {
		k.Put(`<path d="`)
		*k = append(*k, p...)
		k.Put("\"/>\n")
	}
}

// Stroke puts a path of lines of one width.
func (k *Ink) Stroke(p Path, width Unit) {
	if len(p) > 0 {
		k.Put(`<path fill="none" stroke="currentColor" stroke-width="`)
		k.Number(width)
		k.Put(`" d="`)
		*k = append(*k, p...)
		k.Put("\"/>\n")
	}
}

// Text puts a text with its foot at y.
func (k *Ink) Text(x, y Unit, s string, f Face) {
	if s == "" {
		return
	}
	k.Put(`<text x="`)
	k.Number(x)
	k.Put(`" y="`)
	k.Number(y)
	k.Put(`" font-size="`)
	k.Number(f.Size)
	k.Put(`"`)
	if f.bold {
		k.Put(` font-weight="bold"`)
	}
	if f.italic {
		k.Put(` font-style="italic"`)
	}
	switch f.Anchor {
	case AtMiddle:
		k.Put(` text-anchor="middle"`)
	case AtEnd:
		k.Put(` text-anchor="end"`)
	}
	if !f.loose {
		k.Put(` textLength="`)
		k.Number(f.Width(s))
		k.Put(`" lengthAdjust="spacingAndGlyphs"`)
	}
	k.Put(">")
	k.Put(Escaped(s))
	k.Put("</text>\n")
}

// Group puts elements moved by a distance.
func (k *Ink) Group(x, y Unit, body []byte) {
	k.Put(`<g transform="translate(`)
	k.Number(x)
	k.Put(" ")
	k.Number(y)
	k.Put(")\">\n")
	*k = append(*k, body...)
	k.Put("</g>\n")
}

// Escaped writes a text for XML.
func Escaped(s string) string {
	if !strings.ContainsAny(s, "<>&'\"\t\n\r") && strings.IndexFunc(s, unicode.IsControl) < 0 {
		return s
	}
	var b strings.Builder
	_ = xml.EscapeText(&b, []byte(s)) // a builder never fails
	return b.String()
}
