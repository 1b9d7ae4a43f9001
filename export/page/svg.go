package page

import (
	"encoding/xml"
	"fmt"
	"strconv"
	"strings"

	"github.com/rivo/uniseg"
)

// unit is a length on paper, in hundredths of a drawing unit; drawing units are
// CSS pixels at the figure's own size.
type unit int

const one unit = 100

// String writes the length in drawing units, as short as it is exact.
func (u unit) String() string {
	if u < 0 {
		return "-" + (-u).String()
	}
	s := strconv.Itoa(int(u / one))
	if rest := u % one; rest > 0 {
		s += strings.TrimRight(fmt.Sprintf(".%02d", rest), "0")
	}
	return s
}

// esc makes any text safe in SVG text and in quoted attributes.
func esc(s string) string {
	var b strings.Builder
	_ = xml.EscapeText(&b, []byte(s)) // a Builder does not fail
	return b.String()
}

// widthOf estimates how wide a text is drawn at a font size, on the safe side.
func widthOf(text string, size unit) unit {
	return unit(uniseg.StringWidth(text)) * size * 58 / 100
}

// shorten shortens a text to a width, with an ellipsis where something was cut.
func shorten(text string, size, width unit) string {
	if widthOf(text, size) <= width {
		return text
	}
	var kept strings.Builder
	g := uniseg.NewGraphemes(text)
	for g.Next() && widthOf(kept.String()+g.Str()+"…", size) <= width {
		kept.WriteString(g.Str())
	}
	return kept.String() + "…"
}

// isolated keeps a name of any direction from reordering the text around it:
// Unicode's first strong isolate, and the end of it.
func isolated(name string) string { return "\u2068" + name + "\u2069" }

// canvas collects SVG elements.
type canvas struct{ strings.Builder }

// put appends markup. Texts among the arguments must have gone through esc.
func (c *canvas) put(format string, args ...any) { fmt.Fprintf(&c.Builder, format, args...) }

// text puts a text at a place, in a class; the whole of a shortened one is shown
// on hovering.
func (c *canvas) text(class string, x, y unit, text, whole string) {
	c.put(`<text class="%s" x="%v" y="%v">%s`, class, x, y, esc(text))
	if whole != "" && whole != text {
		c.put(`<title>%s</title>`, esc(whole))
	}
	c.put("</text>\n")
}

// path puts a path unless it is empty.
func (c *canvas) path(class, more, d string) {
	if d != "" {
		c.put(`<path class="%s"%s d="%s"/>`+"\n", class, more, d)
	}
}
