package content

import (
	"tieover/export/engraving/pen"
	"tieover/layout/sheet"
)

// Grace is a grace note of an item.
type Grace struct {
	*Item
	X pen.Unit // its left edge from the place of the item's column
}

// Grace notes.
const (
	graceGap pen.Unit = 22 // from one to the next
	graceAir pen.Unit = 34 // to what stands before the note itself
)

// setGraces makes the grace notes of an item, with stems up but for a lower voice.
func (d *Reader) setGraces(it *Item, part int, m *sheet.Measure, middle int) {
	for _, n := range it.Note.Graces {
		g := &Item{Event: n, Note: n, Voice: it.Voice, Staff: it.Staff, Percent: pen.SmallSize, Lone: it.Lone,
			Up: it.Voice.Stem != sheet.StemDown, beam: -1}
		d.setHeads(g, part, m, middle)
		g.setAside()
		it.Graces = append(it.Graces, Grace{Item: g})
	}
}

// placeGraces sets grace notes out to the left of what a column has already, and
// returns how far they reach.
func (it *Item) placeGraces(left pen.Unit, st *Staff) pen.Unit {
	if len(it.Graces) == 0 {
		return left
	}
	at := -left - graceAir
	for k := len(it.Graces) - 1; k >= 0; k-- {
		g := &it.Graces[k]
		setAccidentals([]*Item{g.Item})
		l, r := g.extent(st)
		r = min(r, g.Width(0)+graceGap) // its flag is above the next head
		g.X = at - r
		at = g.X - l - graceGap
	}
	return -at
}
