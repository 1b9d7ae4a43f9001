package engraving

import (
	"slices"

	"tieover/layout/sheet"
)

// accidental is a sign with its width and how far it reaches above and below
// the middle of its head.
type accidental struct {
	sign            sign
	width, up, down unit
}

var accidentals = map[sheet.Accidental]accidental{
	sheet.DoubleFlat:  {signDoubleFlat, 148, 175, 76},
	sheet.Flat:        {signFlat, 80, 175, 76},
	sheet.Natural:     {signNatural, 68, 140, 140},
	sheet.Sharp:       {signSharp, 102, 142, 142},
	sheet.DoubleSharp: {signDoubleSharp, 100, 50, 50},
}

// parens is what parentheses add to the width of a courtesy sign.
const parens unit = 60

// accidentalOf returns the sign of a head, in the size of its note.
func (it *item) accidentalOf(head int) accidental {
	a := it.note.Heads[head].Accidental
	s := accidentals[a&^sheet.Courtesy]
	if a&sheet.Courtesy != 0 {
		s.width += parens
		s.up, s.down = max(s.up, 72), max(s.down, 72)
	}
	s.width, s.up, s.down = it.size(s.width), it.size(s.up), it.size(s.down)
	return s
}

// block is a place that is taken.
type block struct{ x0, x1, y0, y1 unit }

// Distances of accidentals: from their head, from other heads, and from each other.
const (
	signToHead unit = 26
	signToSign unit = 26
)

// setAccidentals stacks the signs before the heads of a column, from the top
// and from the bottom in turn, each as far right as there is room.
func setAccidentals(together []*item) {
	type want struct {
		it   *item
		head int
	}
	var wants []want
	var taken []block
	for _, it := range together {
		if it.note == nil {
			continue
		}
		if it.rolled() && it.hasStem() && !it.up { // strokes at its stem
			x, y := it.shift+stemLine/2, it.bottom()+50
			taken = append(taken, block{x - strokeReach, x + strokeReach, y, y + stemLength})
		}
		for i, p := range it.pos {
			x, y := it.headX(i), it.y(i)
			taken = append(taken, block{x, x + it.width(i), y - 50, y + 50})
			if p > 5 || p < -5 { // ledger lines
				taken = append(taken, block{x - 35, x, y - 55, y + 55})
			}
			if it.note.Heads[i].Accidental != sheet.NoSign && !it.shared {
				wants = append(wants, want{it, i})
			}
		}
	}
	if len(wants) == 0 {
		return
	}
	slices.SortStableFunc(wants, func(a, b want) int { return b.it.pos[b.head] - a.it.pos[a.head] })
	for top := true; len(wants) > 0; top = !top {
		w := wants[0]
		if top {
			wants = wants[1:]
		} else {
			w = wants[len(wants)-1]
			wants = wants[:len(wants)-1]
		}
		s := w.it.accidentalOf(w.head)
		y := w.it.y(w.head)
		b := block{y0: y - s.up, y1: y + s.down, x1: w.it.headX(w.head) - signToHead}
		b.x0 = b.x1 - s.width
		for again := true; again; {
			again = false
			for _, o := range taken {
				if b.y0 < o.y1+8 && b.y1 > o.y0-8 && b.x1 > o.x0-signToSign && b.x0 < o.x1+12 {
					b.x1 = o.x0 - signToSign
					b.x0, again = b.x1-s.width, true
				}
			}
		}
		w.it.signX[w.head] = b.x0
		taken = append(taken, b)
	}
}
