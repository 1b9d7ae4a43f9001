package content

import (
	"cmp"
	"slices"

	"tieover/export/engraving/pen"
	"tieover/layout/sheet"
	"tieover/score/beat"
)

// Row is one bar of all parts.
type Row struct {
	Bars     []sheet.Bar // of each part
	Contents []*Bar
	Columns  []Column
	Rest     int // n > 0: one sign for n bars of rest
	Length   beat.Time
	Natural  pen.Unit // ideal width of a bar without columns
}

// Column is a moment of a bar at which something begins.
type Column struct {
	At     beat.Time // in the bar
	Gap    pen.Unit  // ideal distance to the next column or barline
	Reach  []Reach
	Stroke bool // a dashed stroke stands before it
}

// Reach is how far the signs of a column go on one staff.
type Reach struct {
	Staff       int
	Left, Right pen.Unit // of the column's place
	Lyric       pen.Unit // half the width of the widest syllable
}

// Rows walks the bars of all parts together. A gathered rest has the barline of the
// last bar that it stands for.
func (d *Reader) Rows(yield func(Row) bool) {
	var held Row
	gathered := 0 // bars that it stands for besides the first
	for bars := range sheet.Together(d.Sheet.Parts) {
		if gathered > 0 {
			gathered--
			held.Bars[0].Barline, held.Bars[0].Times = bars[0].Barline, bars[0].Times
			continue
		}
		if held.Bars != nil && !yield(held) {
			return
		}
		r := Row{Bars: make([]sheet.Bar, len(bars)), Contents: make([]*Bar, len(bars)), Length: bars[0].Measure.Length}
		for i, b := range bars {
			r.Bars[i] = *b
			r.Bars[i].Marks = slices.Clone(b.Marks)
			r.Contents[i] = d.bar(i, b)
		}
		if n := bars[0].Rest; n > 1 && len(bars) == 1 {
			r.Rest, gathered = n, n-1
			r.Length *= beat.Time(n)
		}
		d.fill(&r)
		held = r
	}
	if held.Bars != nil {
		yield(held)
	}
}

// fill finds the columns of a row: their moments, their ideal distance, and how
// far the signs of each staff reach.
func (d *Reader) fill(r *Row) {
	r.Columns, r.Natural = nil, sheet.RestBar
	if r.Rest > 0 {
		r.Natural = sheet.GatheredBars
		return
	}
	shares := make([][]sheet.Share, len(r.Contents))
	for i, c := range r.Contents {
		shares[i] = c.shares
	}
	for _, c := range sheet.Columns(r.Length, shares...) {
		r.Columns = append(r.Columns, Column{At: c.At, Gap: pen.Unit(c.Gap)})
	}
	for p, c := range r.Contents {
		k := 0
		for i := range c.places {
			for r.Columns[k].At != c.places[i].at {
				k++
			}
			col := &r.Columns[k]
			for _, reach := range c.places[i].reach {
				reach.Staff += d.Tops[p]
				col.Reach = append(col.Reach, reach)
			}
		}
	}
	r.strokes()
}

// strokes makes room before the columns that a dashed stroke stands at.
func (r *Row) strokes() {
	for p := range r.Bars {
		b := &r.Bars[p]
		for i := range b.Marks {
			m := &b.Marks[i]
			if m.Kind != sheet.Stroke || m.Offset != 0 {
				continue
			}
			events := b.Measure.Voices[m.Voice].Events
			if m.Before >= len(events) {
				continue
			}
			if k := r.ColumnAt(events[m.Before].At()); k > 0 {
				r.Columns[k].Stroke = true
			}
		}
	}
}

// ColumnAt returns the column of a moment of the bar, or -1.
func (r *Row) ColumnAt(at beat.Time) int {
	k, ok := slices.BinarySearchFunc(r.Columns, at, func(c Column, at beat.Time) int { return cmp.Compare(c.At, at) })
	if !ok {
		return -1
	}
	return k
}
