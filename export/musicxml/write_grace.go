package musicxml

import (
	"github.com/beevik/etree"

	"tieover/layout/sheet"
)

// graces returns the grace notes before a note: one with a slash through its
// stem, several under beams without. Those with pitches are slurred to the note.
func (e *encoder) graces(v *sheet.Voice, n *sheet.Note) []*etree.Element {
	var notes []*etree.Element
	for k, g := range n.Graces {
		for i := range g.Heads {
			notes = append(notes, e.grace(v, g, i, k == 0, len(n.Graces) == 1))
		}
	}
	return notes
}

func (e *encoder) grace(v *sheet.Voice, g *sheet.Note, index int, begins, alone bool) *etree.Element {
	head, first := &g.Heads[index], index == 0
	mark := elem("grace")
	if alone {
		mark.CreateAttr("slash", "yes")
	}
	note := elem("note", mark, when(!first, elem("chord")), e.headPlace(head))
	if head.Step == 0 {
		note.AddChild(with(elem("instrument"), "id", instrumentID(e.index, max(1, head.Drum))))
	}
	note.AddChild(number("voice", v.Number))
	addValue(note, g.Value, false)
	if a := accidental(head.Accidental); a != nil {
		note.AddChild(a)
	}
	stem := "up"
	if v.Stem == sheet.StemDown {
		stem = "down"
	}
	note.AddChild(leaf("stem", stem))
	if h := e.notehead(head, g.Touch); h != nil {
		note.AddChild(h)
	}
	e.addStaff(note, v)
	if first {
		addBeams(note, g)
		if begins && head.Step != 0 {
			note.AddChild(elem("notations", graceSlur("start")))
		}
	}
	return note
}

// graceSlur is an end of the slur from the first grace note to its note. Slurs of
// phrases have other numbers.
func graceSlur(kind string) *etree.Element {
	return with(elem("slur"), "type", kind, "number", "2")
}
