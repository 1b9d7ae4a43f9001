package chart

import (
	"fmt"
	"strings"

	"tieover/layout/rows"
)

// A slur is drawn from its first stroke to its last: \__/. Over a barline it goes on.
const (
	slurStarts = '\\'
	slurGoesOn = '_'
	slurStops  = '/'
)

// slurs draws what a row has of slurs in a bar, a character a column; "" for nothing,
// or if they are not asked for. The cells are the row's, at their columns. As on paper,
// no slur stands over slashes: one that leads into them ends with the last stroke
// before, and of one that leads out of them nothing is left.
func (s *setter) slurs(b *rows.Bar, row *rows.Row, cells []token, width int) string {
	if !s.opt.Touches || s.asSlashes(row, b.Start) {
		return ""
	}
	text := []byte(strings.Repeat(" ", width))
	open := row.Slurred && !s.asSlashes(row, b.Start-1)
	from, began, last := 0, -1, -1
	fill := func(to int) {
		for ; from < to; from++ {
			text[from] = slurGoesOn
		}
	}
	stop := func(col int) {
		fill(col)
		text[col], open = slurStops, false
	}
	for i := range row.Cells {
		col := cells[i].col
		if row.Cells[i].Sign.Struck() {
			last = col
		}
		switch slur := row.Cells[i].Slur; {
		case slur.Starts:
			text[col] = slurStarts
			open, from, began = true, col+1, col
		case slur.Stops && open:
			stop(col)
		}
	}
	switch intoSlashes := s.asSlashes(row, b.Start+b.Length); {
	case open && intoSlashes && last > began:
		stop(last)
	case open && intoSlashes && began >= 0: // no two strokes are left of it
		text[began] = ' '
	case open:
		fill(width)
	}
	return strings.TrimRight(string(text), " ")
}

// slursWithin is the part in columns [from, to).
func slursWithin(text string, from, to int) string {
	to = min(to, len(text))
	return text[min(from, to):to]
}

// writeSlurs writes a line of the slurs of a row, if there are any.
func (s *setter) writeSlurs(y *system, i int) {
	var all []byte
	for k := range y.bars {
		text := y.bars[k].rows[i].slurs
		if text == "" {
			continue
		}
		gap := byte(' ')
		if n := len(all); n > 0 && (all[n-1] == slurGoesOn || all[n-1] == slurStarts) {
			gap = slurGoesOn
		}
		for len(all) < y.cols[k] {
			all = append(all, gap)
		}
		all = append(all, text...)
	}
	if all != nil {
		fmt.Fprintln(s.out, strings.TrimRight(string(all), " "))
	}
}
