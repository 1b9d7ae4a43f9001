package engraving

import (
	"encoding/xml"
	"strings"
	"unicode"
)

// face is how a text is set: in the reader's serif face. Music never depends on a
// font, so a text in it is stretched or squeezed to the width that was reckoned.
type face struct {
	size         unit
	bold, italic bool
	anchor       anchor
	loose        bool // it takes the width that the font gives it; others get that which was reckoned
}

type anchor int

const (
	atStart anchor = iota
	atMiddle
	atEnd
)

// The faces of all texts.
var (
	titleFace     = face{loose: true, size: 420, bold: true, anchor: atMiddle}
	subtitleFace  = face{loose: true, size: 240, anchor: atMiddle}
	creditFace    = face{loose: true, size: 210, anchor: atEnd}
	playerFace    = face{loose: true, size: 230}
	rightsFace    = face{loose: true, size: 150, anchor: atMiddle}
	nameFace      = face{size: 170, anchor: atEnd}
	numberFace    = face{size: 150, italic: true, anchor: atEnd} // of bars
	labelFace     = face{size: 190, bold: true}
	boxedFace     = face{size: 165, bold: true}
	wordsFace     = face{size: 165, italic: true}
	techniqueFace = face{size: 165}
	takeUpFace    = face{size: 165, bold: true}
	smallFace     = face{size: 145} // of analysis
	boldFace      = face{size: 145, bold: true}
	dynamicFace   = face{size: 240, bold: true, italic: true, anchor: atMiddle}
	chordFace     = face{size: 185}
	tempoFace     = face{size: 190, bold: true}
	ratioFace     = face{size: 130, italic: true}
	tupletFace    = face{size: 165, bold: true, italic: true, anchor: atMiddle}
	lyricFace     = face{size: 160, anchor: atMiddle}
	trillFace     = face{size: 210, bold: true, italic: true, anchor: atMiddle}
	fretFace      = face{size: 165, anchor: atMiddle}
	tabFace       = face{bold: true, anchor: atMiddle}
	octaveFace    = face{size: 150, italic: true, anchor: atMiddle} // the 8 of a clef
)

// rise is how far letters reach above their foot, sink how far below.
func (f face) rise() unit { return f.size.percent(72) }
func (f face) sink() unit { return f.size.percent(22) }

// width reckons how wide a text is: careful averages of a serif face.
func (f face) width(s string) unit {
	thousandths := 0
	for _, r := range s {
		switch {
		case unicode.Is(unicode.Mn, r) || unicode.Is(unicode.Cf, r):
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
	w := unit(thousandths) * f.size / 1000
	if f.bold {
		w += w / 20
	}
	return w
}

// within makes a face smaller if a text would be wider than its room.
func (f face) within(room unit, s string) face {
	for w := f.width(s); w > room && f.size > 10; w = f.width(s) {
		f.size = max(10, min(f.size-1, f.size*room/w))
	}
	return f
}

// span is where a text at x begins and ends.
func (f face) span(x unit, s string) (x0, x1 unit) {
	w := f.width(s)
	switch f.anchor {
	case atMiddle:
		x -= w / 2
	case atEnd:
		x -= w
	}
	return x, x + w
}

// ink collects SVG elements.
type ink []byte

func (k *ink) put(s string) { *k = append(*k, s...) }

func (k *ink) number(u unit) { *k = u.appendTo(*k) }

// fill puts a filled path, if there is anything in it.
func (k *ink) fill(p path) {
	if len(p) > 0 {
		k.put(`<path d="`)
		*k = append(*k, p...)
		k.put("\"/>\n")
	}
}

// stroke puts a path of lines of one width.
func (k *ink) stroke(p path, width unit) {
	if len(p) > 0 {
		k.put(`<path fill="none" stroke="currentColor" stroke-width="`)
		k.number(width)
		k.put(`" d="`)
		*k = append(*k, p...)
		k.put("\"/>\n")
	}
}

// text puts a text with its foot at y.
func (k *ink) text(x, y unit, s string, f face) {
	if s == "" {
		return
	}
	k.put(`<text x="`)
	k.number(x)
	k.put(`" y="`)
	k.number(y)
	k.put(`" font-size="`)
	k.number(f.size)
	k.put(`"`)
	if f.bold {
		k.put(` font-weight="bold"`)
	}
	if f.italic {
		k.put(` font-style="italic"`)
	}
	switch f.anchor {
	case atMiddle:
		k.put(` text-anchor="middle"`)
	case atEnd:
		k.put(` text-anchor="end"`)
	}
	if !f.loose {
		k.put(` textLength="`)
		k.number(f.width(s))
		k.put(`" lengthAdjust="spacingAndGlyphs"`)
	}
	k.put(">")
	k.put(escaped(s))
	k.put("</text>\n")
}

// group puts elements moved by a distance.
func (k *ink) group(x, y unit, body []byte) {
	k.put(`<g transform="translate(`)
	k.number(x)
	k.put(" ")
	k.number(y)
	k.put(")\">\n")
	*k = append(*k, body...)
	k.put("</g>\n")
}

// escaped writes a text for XML.
func escaped(s string) string {
	if !strings.ContainsAny(s, "<>&'\"\t\n\r") && strings.IndexFunc(s, unicode.IsControl) < 0 {
		return s
	}
	var b strings.Builder
	_ = xml.EscapeText(&b, []byte(s)) // a builder never fails
	return b.String()
}
