package content

import (
	"slices"

	"tieover/export/engraving/pen"
	"tieover/layout/sheet"
)

// Accidental is a sign with its width and how far it reaches above and below
// the middle of its head.
type Accidental struct {
	Sign            pen.Sign
	Width, Up, Down pen.Unit
}

var accidentals = map[sheet.Accidental]Accidental{
	sheet.DoubleFlat:  {pen.SignDoubleFlat, 148, 175, 76},
	sheet.Flat:        {pen.SignFlat, 80, 175, 76},
	sheet.Natural:     {pen.SignNatural, 68, 140, 140},
	sheet.Sharp:       {pen.SignSharp, 102, 142, 142},
	sheet.DoubleSharp: {pen.SignDoubleSharp, 100, 50, 50},
}

// parens is what parentheses add to the width of a courtesy sign.
const parens pen.Unit = 60

// AccidentalOf returns the sign of a head, in the size of its note.
func (it *Item) AccidentalOf(head int) Accidental {
	a := it.Note.Heads[head].Accidental
	s := accidentals[a&^sheet.Courtesy]
	if a&sheet.Courtesy != 0 {
		s.Width += parens
		s.Up, s.Down = max(s.Up, 72), max(s.Down, 72)
	}
	s.Width, s.Up, s.Down = it.Size(s.Width), it.Size(s.Up), it.Size(s.Down)
	return s
}

// block is a place that is taken.
type block struct{ x0, x1, y0, y1 pen.Unit }

// Distances of accidentals: from their head, from other heads, and from each other.
const (
	signToHead pen.Unit = 26
	signToSign pen.Unit = 26
)

// setAccidentals stacks the signs before the heads of a column, from the top
// and from the bottom in turn, each as far right as there is room.
func setAccidentals(together []*Item) {
	type want struct {
		it   *Item
		head int
	}
	var wants []want
	var taken []block
	for _, it := range together {
		if it.Note == nil {
			continue
		}
		if it.Rolled() && it.HasStem() && !it.Up { // strokes at its stem
			x, y := it.Shift+pen.StemLine/2, it.Bottom()+50
			taken = append(taken, block{x - StrokeReach, x + StrokeReach, y, y + StemLength})
		}
		for i, p := range it.Pos {
			x, y := it.HeadX(i), it.Y(i)
			taken = append(taken, block{x, x + it.Width(i), y - 50, y + 50})
			if p > 5 || p < -5 { // ledger lines
				taken = append(taken, block{x - 35, x, y - 55, y + 55})
			}
			if it.Note.Heads[i].Accidental != sheet.NoSign && !it.Shared {
				wants = append(wants, want{it, i})
			}
		}
	}
	if len(wants) == 0 {
		return
	}
	slices.SortStableFunc(wants, func(a, b want) int { return b.it.Pos[b.head] - a.it.Pos[a.head] })
	for top := true; len(wants) > 0; top = !top {
		w := wants[0]
		if top {
			wants = wants[1:]
		} else {
			w = wants[len(wants)-1]
			wants = wants[:len(wants)-1]
		}
		s := w.it.AccidentalOf(w.head)
		y := w.it.Y(w.head)
		b := block{y0: y - s.Up, y1: y + s.Down, x1: w.it.HeadX(w.head) - signToHead}
		b.x0 = b.x1 - s.Width
		for again := true; again; {
			again = false
			for _, o := range taken {
				if b.y0 < o.y1+8 && b.y1 > o.y0-8 && b.x1 > o.x0-signToSign && b.x0 < o.x1+12 {
					b.x1 = o.x0 - signToSign
					b.x0, again = b.x1-s.Width, true
				}
			}
		}
		w.it.SignX[w.head] = b.x0
		taken = append(taken, b)
	}
}
