package chart

import (
	"bytes"

	"tieover/export/chart/terminal"
)

// line is one line of text built from left to right by columns.
type line struct {
	text  []byte
	width int // columns so far
}

// newLine begins a line; print it before the next.
func (s *setter) newLine() line { return line{text: s.scratch[:0]} }

// print writes a line without trailing blanks.
func (s *setter) print(l *line) {
	s.scratch = append(bytes.TrimRight(l.text, " "), '\n')
	s.out.Write(s.scratch)
}

// put writes s so that it begins at a column, which must not lie before what
// is already written.
func (l *line) put(col int, s string) {
	if s == "" {
		return
	}
	if col < l.width {
		panic("chart: text over text in " + string(l.text))
	}
	for gap := col - l.width; gap > 0; gap -= len(blanks) {
		l.text = append(l.text, blanks[:min(gap, len(blanks))]...)
	}
	l.text = append(l.text, s...)
	l.width = col + terminal.Width(s)
}

const blanks = "                                                                "
