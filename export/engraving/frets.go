package engraving

import (
	"strconv"

	"tieover/score"
)

// Tablature stands below the notes of its part, a line for each string, and shows the
// fret of each head where it is struck. Rests, stems, key and time are read above
// (common practice).
const (
	stringGap unit = 150 // between its lines, so that numbers on neighbours keep apart
	fretAir   unit = 18  // that a line leaves free at each side of a number
)

// fretText is the number of a head, in parentheses where it is hardly heard.
func (it *item) fretText(head int) string {
	text := strconv.Itoa(int(it.note.Heads[head].Stop.Fret))
	if it.note.Touch.Has(score.Ghost) {
		text = "(" + text + ")"
	}
	return text
}

// fretFace is what it is set in.
func (it *item) fretFace() face {
	f := fretFace
	f.size = it.size(f.size)
	return f
}

// eachFret calls see with the numbers of a note, from its left edge: those of its grace
// notes, and of its heads where it is struck. What is no note of the player's has none.
func (it *item) eachFret(see func(it *item, head int, middle unit)) {
	if it.note == nil || it.voice.Small || it.note.TieIn || it.note.Heads[0].Stop.String == 0 {
		return
	}
	for _, g := range it.graces {
		for head := range g.note.Heads {
			see(g.item, head, g.x+g.width(head)/2)
		}
	}
	for head := range it.note.Heads {
		see(it, head, headWidth(headBlack)/2)
	}
}

// fretRoom adds what the numbers on a staff of the part take beside their columns.
func (c *content) fretRoom(staff int) {
	for k := range c.places {
		r := reach{staff: staff}
		for i := range c.items {
			if it := &c.items[i]; it.event.At() == c.places[k].at {
				it.eachFret(func(n *item, head int, middle unit) {
					half := n.fretFace().width(n.fretText(head))/2 + fretAir
					r.left, r.right = max(r.left, half-middle), max(r.right, middle+half)
				})
			}
		}
		if r.right > 0 {
			c.places[k].reach = append(c.places[k].reach, r)
		}
	}
}
