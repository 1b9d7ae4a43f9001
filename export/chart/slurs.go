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
// or if they are not asked for. The cells are the row's, at their columns.
func (s *setter) slurs(row *rows.Row, cells []token, width int) string {
	if !s.opt.Touches {
		return ""
	}
	text, open := []byte(strings.Repeat(" ", width)), row.Slurred
	any, from := open, 0
	fill := func(to int) {
		for ; from < to; from++ {
			text[from] = slurGoesOn
		}
	}
	for i := range row.Cells {
		switch slur := row.Cells[i].Slur; {
		case slur.Starts:
			text[cells[i].col] = slurStarts
			any, open, from = true, true, cells[i].col+1
		case slur.Stops:
			fill(cells[i].col)
			text[cells[i].col], open = slurStops, false
		}
	}
	if open {
		fill(width)
	}
	if !any {
		return ""
	}
	return string(text)
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
