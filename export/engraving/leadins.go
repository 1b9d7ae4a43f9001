package engraving

import "tieover/layout/sheet"

// grace is a grace note of an item.
type grace struct {
	*item
	x unit // its left edge from the place of the item's column
}

// Grace notes.
const (
	graceGap unit = 22 // from one to the next
	graceAir unit = 34 // to what stands before the note itself
)

// setGraces makes the grace notes of an item, with stems up but for a lower voice.
func (d *reader) setGraces(it *item, part int, m *sheet.Measure, middle int) {
	for _, n := range it.note.Graces {
		g := &item{event: n, note: n, voice: it.voice, staff: it.staff, percent: smallSize, lone: it.lone,
			up: it.voice.Stem != sheet.StemDown, beam: -1}
		d.setHeads(g, part, m, middle)
		g.setAside()
		it.graces = append(it.graces, grace{item: g})
	}
}

// placeGraces sets grace notes out to the left of what a column has already, and
// returns how far they reach.
func (it *item) placeGraces(left unit, st *staff) unit {
	if len(it.graces) == 0 {
		return left
	}
	at := -left - graceAir
	for k := len(it.graces) - 1; k >= 0; k-- {
		g := &it.graces[k]
		setAccidentals([]*item{g.item})
		l, r := g.extent(st)
		r = min(r, g.width(0)+graceGap) // its flag is above the next head
		g.x = at - r
		at = g.x - l - graceGap
	}
	return -at
}
