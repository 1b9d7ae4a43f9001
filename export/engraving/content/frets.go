package content

import (
	"strconv"

	"tieover/export/engraving/pen"
)

// Tablature stands below the notes of its part, a line for each string, and shows the
// fret of each head where it is struck. Rests, stems, key and time are read above
// (common practice).
const (
	StringGap pen.Unit = 150 // between its lines, so that numbers on neighbours keep apart
	FretAir   pen.Unit = 18  // that a line leaves free at each side of a number
)

// FretText is the number of a head, in parentheses where it is hardly heard.
func (it *Item) FretText(head int) string {
	text := strconv.Itoa(int(it.Note.Heads[head].Stop.Fret))
	if it.Note.Heads[head].Ghost {
		text = "(" + text + ")"
	}
	return text
}

// FretFace is the face of the number.
func (it *Item) FretFace() pen.Face {
	f := pen.FretFace
	f.Size = it.Size(f.Size)
	return f
}

// EachFret calls see with the numbers of a note, from its left edge: those of its grace
// notes, and of its heads where it is struck. What is no note of the player's has none.
func (it *Item) EachFret(see func(it *Item, head int, middle pen.Unit)) {
	if it.Note == nil || it.Voice.Small || it.Note.TieIn || it.Note.Heads[0].Stop.String == 0 {
		return
	}
	for _, g := range it.Graces {
		for head := range g.Note.Heads {
			see(g.Item, head, g.X+g.Width(head)/2)
		}
	}
	for head := range it.Note.Heads {
		see(it, head, pen.HeadWidth(pen.HeadBlack)/2)
	}
}

// fretRoom adds what the numbers on a staff of the part take beside their columns.
func (c *Bar) fretRoom(staff int) {
	for k := range c.places {
		r := Reach{Staff: staff}
		for i := range c.Items {
			if it := &c.Items[i]; it.Event.At() == c.places[k].at {
				it.EachFret(func(n *Item, head int, middle pen.Unit) {
					half := n.FretFace().Width(n.FretText(head))/2 + FretAir
					r.Left, r.Right = max(r.Left, half-middle), max(r.Right, middle+half)
				})
			}
		}
		if r.Right > 0 {
			c.places[k].reach = append(c.places[k].reach, r)
		}
	}
}
