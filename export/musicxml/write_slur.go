package musicxml

import (
	"strconv"

	"tieover/layout/sheet"
)

// slurEnds writes where slurs begin and end. Their number is the voice's, so that
// those of different voices never mix. Where voices share a staff they keep to their
// own side.
func slurEnds(l *lines, v *sheet.Voice, n *sheet.Note, shared bool) {
	number := strconv.Itoa(v.Number)
	if n.Slur.Stops {
		l.empty("slur", "type", "stop", "number", number)
	}
	switch {
	case !n.Slur.Starts:
	case shared && v.Stem != sheet.StemFree:
		l.empty("slur", "type", "start", "number", number, "placement", outside(v))
	default:
		l.empty("slur", "type", "start", "number", number)
	}
}
