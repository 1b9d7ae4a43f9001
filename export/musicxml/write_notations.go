package musicxml

import (
	"tieover/layout/sheet"
	"tieover/score"
)

// strokes are those of a roll through a stem.
const strokes = 3

// notations writes ties, tuplet signs, ornaments and articulations, if there are any.
func notations(l *lines, v *sheet.Voice, n *sheet.Note, first, shared bool) {
	content := l.open("notations")
	ties(l, "tied", n)
	if first {
		slurEnds(l, v, n, shared)
		tupletEnds(l, n.Tuplet, n.TupletStart, n.TupletStop)
		if len(n.Graces) > 0 && n.Heads[0].Step != 0 {
			graceSlur(l, "stop")
		}
		ornaments(l, v, n)
		touches(l, v, n, shared)
		fermata(l, v, n.Fermata)
	}
	l.closeFilled("notations", content)
}

// ties writes the ends of ties at a note: as played (tie) or as printed (tied).
func ties(l *lines, tag string, n *sheet.Note) {
	if n.TieIn {
		l.empty(tag, "type", "stop")
	}
	if n.TieOut {
		l.empty(tag, "type", "start")
	}
}

func ornaments(l *lines, v *sheet.Voice, n *sheet.Note) {
	content := l.open("ornaments")
	if n.Touch.Has(sheet.Stroked) {
		l.number("tremolo", strokes, "type", "single")
	}
	if n.Touch.Has(score.Trill) {
		l.empty("trill-mark", "placement", outside(v))
	}
	l.closeFilled("ornaments", content)
}

// fermata writes the sign, upside down in the lower voice of a staff.
func fermata(l *lines, v *sheet.Voice, held bool) {
	switch {
	case held && v.Stem == sheet.StemDown:
		l.empty("fermata", "type", "inverted")
	case held:
		l.empty("fermata", "type", "upright")
	}
}

// touches writes the accent and the touches. Accents stand above, in a voice
// with stems down below; dots and dashes at the head, which the reader finds, but
// outside where a voice has its side of the staff, and beside an accent where that is.
func touches(l *lines, v *sheet.Voice, n *sheet.Note, shared bool) {
	side, kind := outside(v), "up"
	if v.Stem == sheet.StemDown {
		kind = "down"
	}
	content := l.open("articulations")
	touch := n.Touch
	if n.Accent {
		touch |= score.Accented
	}
	for _, sign := range articulationSigns {
		switch {
		case !touch.Has(sign.touch):
		case sign.touch == score.Marcato:
			l.empty(sign.name, "placement", side, "type", kind)
		case touch.Has(score.Accented|score.Marcato) || shared || v.Stem != sheet.StemFree:
			l.empty(sign.name, "placement", side)
		default:
			l.empty(sign.name)
		}
	}
	l.closeFilled("articulations", content)
}

// outside is the side of a voice: above, or below where its stems go down.
func outside(v *sheet.Voice) string {
	if v.Stem == sheet.StemDown {
		return "below"
	}
	return "above"
}

// articulationSigns are those of touches that are articulations, accents first.
var articulationSigns = [...]struct {
	touch score.Touch
	name  string
}{
	{score.Accented, "accent"},
	{score.Marcato, "strong-accent"},
	{score.Staccato, "staccato"},
	{score.Tenuto, "tenuto"},
}
