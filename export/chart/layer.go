package chart

import (
	"strconv"
	"strings"

	"tieover/layout/rows"
)

// writeLayer writes the lines of one layer: cycle numbers, touches, the row
// itself, names of what is struck, words.
func (s *setter) writeLayer(y *system, i int) {
	head := s.pulsesHead(pulsesOf(y, i))
	if s.opt.Compact || s.opt.Hide.Has(rows.HideStarts) {
		head = s.heads[i]
	} else {
		s.writeStarts(y, i, s.heads[i])
	}
	var names, touches, words lines
	for k := range y.bars {
		names.add(y.cols[k], y.bars[k].rows[i].names)
		touches.add(y.cols[k], y.bars[k].rows[i].touches)
		words.add(y.cols[k], y.bars[k].rows[i].words)
	}
	landing := ""
	if y.landing != nil && y.landing.Rows[i].Sign.Struck() {
		c, col := &y.landing.Rows[i], y.cols[len(y.cols)-1]
		landing = s.sign(c, 1)
		s.setNames(&names, s.chart.Layers[i], c, col)
		s.setTouches(&touches, c, col)
		s.setWords(&words, c, col)
	}
	s.writeSlurs(y, i)
	s.writeStack(touches)
	s.rowLine(y, head, func(b *barText) []token { return b.rows[i].cells },
		func(b *barText) bool { return b.rows[i].held }, landing)
	if s.opt.Compact {
		s.writeStarts(y, i, "")
	}
	s.writeStack(names)
	s.writeStack(words)
}

// pulsesHead is what stands before a row: how long its cycle is, three blanks in
// where there is room, or + where there is none for the number, as may come of
// growth.
func (s *setter) pulsesHead(pulses string) string {
	if len(pulses) >= s.label {
		return " +"
	}
	return strings.Repeat(" ", min(3, max(1, s.label-1-len(pulses)))) + pulses
}

// pulsesOf says how long the first cycle of the row is.
func pulsesOf(y *system, i int) string {
	for _, b := range y.bars {
		if n := b.rows[i].pulses; n > 0 {
			return strconv.FormatInt(n, 10)
		}
	}
	return ""
}

// writeStarts writes the line of cycle numbers. Words after a number must end
// before the next cycle; a bare number may stand over the starts of cycles that
// are too short to have numbers of their own.
func (s *setter) writeStarts(y *system, i int, head string) {
	var all []begin
	for k := range y.bars {
		for _, b := range y.bars[k].rows[i].starts {
			all = append(all, begin{y.cols[k] + b.col, b.Start})
		}
	}
	l := s.newLine()
	l.put(0, head)
	for k, b := range all {
		room := s.opt.Width - b.col
		if k+1 < len(all) {
			room = all[k+1].col - b.col - 1
		}
		if b.col <= l.width {
			continue
		}
		l.put(b.col, s.startWords(&b.Start, room, s.opt.Width-b.col))
	}
	if l.width > 0 {
		s.print(&l)
	}
}

// writeStack writes lines of tokens, each on as many lines as it takes to keep
// the tokens apart.
func (s *setter) writeStack(stack lines) {
	for _, tokens := range stack {
		for len(tokens) > 0 {
			tokens = s.writeApart(tokens)
		}
	}
}

// writeApart writes the tokens that have a blank between them on one line and
// returns the others.
func (s *setter) writeApart(tokens []token) (left []token) {
	l := s.newLine()
	for _, t := range tokens {
		if l.width > 0 && t.col <= l.width {
			left = append(left, t)
			continue
		}
		l.put(t.col, t.text)
	}
	s.print(&l)
	return left
}
