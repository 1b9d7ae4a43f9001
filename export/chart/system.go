package chart

import (
	"strconv"
	"strings"

	"tieover/layout/rows"
)

// system is the bars of one row of the chart.
type system struct {
	bars    []barText
	landing *rows.Landing // after the section's last bar
	cols    []int         // of each bar's first cell, and of what follows the last bar; known once it is set
}

// bounds returns the columns of a system's bars.
func (s *setter) bounds(y *system) []int {
	at := s.label + 1
	cols := []int{at}
	for i := range y.bars {
		at += y.bars[i].width + len(y.bars[i].barline())
		cols = append(cols, at)
	}
	return cols
}

// barline is the sign at a bar's end.
func (t *barText) barline() string {
	switch {
	case t.goesOn:
		return ":"
	case t.double, t.closes:
		return "||"
	}
	return "|"
}

// write sets one system.
func (s *setter) write(y *system) {
	y.cols = s.bounds(y)
	s.writeTexts(y)
	s.writeRuler(y)
	above := len(s.families)
	if s.opt.Compact {
		above = 1 // tuplets are counted below the layers
	}
	for f := range above {
		s.writeCount(y, f)
	}
	for i := range s.chart.Layers {
		s.writeLayer(y, i)
	}
	for f := above; f < len(s.families); f++ {
		s.writeCount(y, f)
	}
	if s.hasTogether() {
		s.writeTogether(y)
	}
	s.out.WriteByte('\n')
}

// rowLine writes one line with barlines: what stands before it, its tokens bar
// by bar, a tie where held says so, and the landing.
func (s *setter) rowLine(y *system, head string, tokens func(*barText) []token, held func(*barText) bool, landing string) {
	l := s.newLine()
	l.put(0, head)
	sign := "|"
	if y.bars[0].from > 0 {
		sign = ":"
	}
	l.put(s.label, sign)
	for i := range y.bars {
		b := &y.bars[i]
		for _, t := range tokens(b) {
			l.put(y.cols[i]+t.col, t.text)
		}
		end := y.cols[i] + b.width
		if held != nil && held(b) && !b.goesOn {
			l.put(end-1, "~")
		}
		l.put(end, b.barline())
	}
	if landing != "" {
		l.put(y.cols[len(y.cols)-1], landing)
	}
	s.print(&l)
}

func (s *setter) writeCount(y *system, f int) {
	head := s.countHead(s.families[f])
	landing := ""
	if y.landing != nil {
		landing = "1"
	}
	s.rowLine(y, head, func(b *barText) []token { return b.count[f] }, nil, landing)
}

// countHead is what stands before a way of counting.
func (s *setter) countHead(f rows.Family) string {
	switch {
	case f.Actual > 1 && s.opt.Compact:
		return f.Name
	case f.Actual > 1:
		return "   " + f.Name
	case s.opt.Compact:
		return "2s"
	}
	return "count"
}

// togetherHead is what stands before the composite: in the compact form the
// letters of two or three layers.
func (s *setter) togetherHead() string {
	switch {
	case !s.opt.Compact:
		return "together"
	case len(s.letters) <= 3:
		return strings.Join(s.letters, "")
	}
	return "all"
}

func (s *setter) writeTogether(y *system) {
	landing := ""
	if y.landing != nil {
		n := 0
		for i, r := range y.landing.Rows {
			if r.Sign.Struck() {
				n++
				landing = s.letters[i]
			}
		}
		if n > 1 {
			landing = strconv.Itoa(n)
		}
	}
	s.rowLine(y, s.togetherHead(), func(b *barText) []token { return b.together }, nil, landing)
	if s.hasGaps() {
		s.rowLine(y, "   gaps", func(b *barText) []token { return b.gaps }, nil, "")
	}
	if s.saysTogether() {
		s.rowLine(y, "   say", func(b *barText) []token { return b.said }, nil, "")
	}
}
