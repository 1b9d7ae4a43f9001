package musicxml

import (
	"strconv"

	"github.com/beevik/etree"

	"tieover/layout/sheet"
)

// addSlurs adds where slurs begin and end. Their number is the voice's, so that
// those of different voices never mix. Where voices share a staff they keep to their
// own side.
func addSlurs(notations *etree.Element, v *sheet.Voice, n *sheet.Note, shared bool) {
	slur := func(end string) *etree.Element {
		return with(elem("slur"), "type", end, "number", strconv.Itoa(v.Number))
	}
	if n.Slur.Stops {
		notations.AddChild(slur("stop"))
	}
	if !n.Slur.Starts {
		return
	}
	start := slur("start")
	if shared && v.Stem != sheet.StemFree {
		start.CreateAttr("placement", outside(v))
	}
	notations.AddChild(start)
}
