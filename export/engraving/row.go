package engraving

import (
	"cmp"
	"slices"

	"tieover/layout/sheet"
	"tieover/score/beat"
)

// row is one bar of all parts.
type row struct {
	bars     []sheet.Bar // of each part
	contents []*content
	columns  []column
	rest     int // n > 0: one sign for n bars of rest
	length   beat.Time
	natural  unit // ideal width of a bar without columns
}

// column is a moment of a bar at which something begins.
type column struct {
	at     beat.Time // in the bar
	gap    unit      // ideal distance to the next column or barline
	reach  []reach
	stroke bool // a dashed stroke stands before it
}

// reach is how far the signs of a column go on one staff.
type reach struct {
	staff       int
	left, right unit // of the column's place
	lyric       unit // half the width of the widest syllable
}

// rows walks the bars of all parts together. A gathered rest has the barline of the
// last bar that it stands for.
func (d *reader) rows(yield func(row) bool) {
	var held row
	gathered := 0 // bars that it stands for besides the first
	for bars := range sheet.Together(d.sheet.Parts) {
		if gathered > 0 {
			gathered--
			held.bars[0].Barline, held.bars[0].Times = bars[0].Barline, bars[0].Times
			continue
		}
		if held.bars != nil && !yield(held) {
			return
		}
		r := row{bars: make([]sheet.Bar, len(bars)), contents: make([]*content, len(bars)), length: bars[0].Measure.Length}
		for i, b := range bars {
			r.bars[i] = *b
			r.bars[i].Marks = slices.Clone(b.Marks)
			r.contents[i] = d.content(i, b)
		}
		if n := bars[0].Rest; n > 1 && len(bars) == 1 {
			r.rest, gathered = n, n-1
			r.length *= beat.Time(n)
		}
		d.fill(&r)
		held = r
	}
	if held.bars != nil {
		yield(held)
	}
}

// fill finds the columns of a row: their moments, their ideal distance, and how
// far the signs of each staff reach.
func (d *reader) fill(r *row) {
	r.columns, r.natural = nil, sheet.RestBar
	if r.rest > 0 {
		r.natural = sheet.GatheredBars
		return
	}
	shares := make([][]sheet.Share, len(r.contents))
	for i, c := range r.contents {
		shares[i] = c.shares
	}
	for _, c := range sheet.Columns(r.length, shares...) {
		r.columns = append(r.columns, column{at: c.At, gap: unit(c.Gap)})
	}
	for p, c := range r.contents {
		k := 0
		for i := range c.places {
			for r.columns[k].at != c.places[i].at {
				k++
			}
			col := &r.columns[k]
			for _, reach := range c.places[i].reach {
				reach.staff += d.tops[p]
				col.reach = append(col.reach, reach)
			}
		}
	}
	r.strokes()
}

// strokes makes room before the columns that a dashed stroke stands at.
func (r *row) strokes() {
	for p := range r.bars {
		b := &r.bars[p]
		for i := range b.Marks {
			m := &b.Marks[i]
			if m.Kind != sheet.Stroke || m.Offset != 0 {
				continue
			}
			events := b.Measure.Voices[m.Voice].Events
			if m.Before >= len(events) {
				continue
			}
			if k := r.columnAt(events[m.Before].At()); k > 0 {
				r.columns[k].stroke = true
			}
		}
	}
}

// columnAt returns the column of a moment of the bar, or -1.
func (r *row) columnAt(at beat.Time) int {
	k, ok := slices.BinarySearchFunc(r.columns, at, func(c column, at beat.Time) int { return cmp.Compare(c.at, at) })
	if !ok {
		return -1
	}
	return k
}
