package chart

import (
	"bufio"
	"fmt"
	"strconv"
	"strings"

	"tieover/export/chart/terminal"
	"tieover/layout/rows"
	"tieover/score/beat"
)

// pass is one cycle on its way to a line.
type pass struct {
	start rows.Start
	label string
	bar   int       // number of the bar it begins in
	from  beat.Time // that bar's start in the section, the whole bar's
	cells []token
	lines []int // columns of barlines inside it
	over  bool  // it goes on past the line
	begun bool
}

// rows writes one line a cycle, and one for the landing.
func (v *driftView) rows(out *bufio.Writer) {
	v.s.out = out
	v.count()
	first, last := v.s.shown()
	var p pass
	for b := range v.s.chart.Bars() {
		row := &b.Rows[0]
		next := 0
		if p.begun {
			v.barline(&p, b.Start)
		}
		for _, c := range row.Cells {
			if next < len(row.Starts) && row.Starts[next].At == c.At {
				if start := row.Starts[next]; start.Number > 0 {
					v.line(&p, first, last)
					p = pass{start: start, bar: b.Number, from: b.Start - b.Skipped, begun: true, cells: p.cells[:0], lines: p.lines[:0]}
					for _, l := range b.Labels {
						if l.At == start.At {
							p.label = terminal.Clip(v.s.spell(l.Text), mostLabel)
						}
					}
				} else {
					v.line(&p, first, last)
					p.begun = false
				}
				next++
			}
			v.cell(&p, b.Start+c.At, c)
		}
	}
	v.line(&p, first, last)
	if l, ok := v.s.chart.Landing(); ok && l.Rows[0].Sign.Struck() && last == v.s.chart.BarCount() {
		end := v.s.newLine()
		end.put(6, strings.TrimSpace(strconv.Itoa(l.Number)+" "+terminal.Clip(v.s.spell(l.Label), mostLabel)))
		end.put(v.label, "|X")
		v.s.print(&end)
	}
}

// count writes the spoken count over the bars, where all bars are alike.
func (v *driftView) count() {
	l := v.s.newLine()
	l.put(0, "   #  bar")
	if v.s.chart.Equal() {
		for b := range v.s.chart.Bars() {
			if b.Skipped > 0 && b.N < v.s.chart.BarCount() {
				continue // a bar that begins inside
			}
			var t barText
			t.width = v.s.scale.bar(b.Length)
			v.s.setCounts(b, &t)
			for at := v.label; at < v.s.opt.Width-2; at += t.width + 1 {
				l.put(at, "|")
				for _, y := range t.count[0] {
					if at+1+y.col < v.s.opt.Width {
						l.put(at+1+y.col, y.text)
					}
				}
			}
			break
		}
	}
	v.s.print(&l)
}

// column is where section time t stands in the line of a pass: every barline
// passed takes a column too.
func (v *driftView) column(p *pass, t beat.Time) int {
	return v.label + 1 + v.s.scale.col(t-p.from) + len(p.lines)
}

func (v *driftView) barline(p *pass, t beat.Time) {
	col := v.column(p, t)
	if col >= v.s.opt.Width-2 {
		p.over = true
		return
	}
	p.lines = append(p.lines, col)
}

func (v *driftView) cell(p *pass, t beat.Time, c rows.Cell) {
	if !p.begun || p.over {
		return
	}
	col := v.column(p, t)
	if col >= v.s.opt.Width-2 {
		p.over = true
		return
	}
	text := signs[c.Sign]
	if c.Sign == rows.Sounding {
		text = lastDigits(strconv.Itoa(c.Count), 1)
	}
	p.cells = append(p.cells, token{col, text})
}

// line writes a finished pass.
func (v *driftView) line(p *pass, first, last int) {
	offset := v.s.chart.Section.FirstBar - 1
	if !p.begun || p.bar-offset < first || p.bar-offset > last {
		return
	}
	l := v.s.newLine()
	l.put(0, fmt.Sprintf("%4d", p.start.Number))
	l.put(6, strings.TrimSpace(strconv.Itoa(p.bar)+" "+p.label))
	l.put(v.label-1-v.longestLateness(), p.start.Lateness.Words())
	l.put(v.label, "|")
	k := 0
	for _, c := range p.cells {
		for ; k < len(p.lines) && p.lines[k] < c.col; k++ {
			l.put(p.lines[k], "|")
		}
		l.put(c.col, c.text)
	}
	for ; k < len(p.lines); k++ {
		l.put(p.lines[k], "|")
	}
	v.late = v.late || p.start.Lateness.Kind == rows.Late || p.start.Lateness.Kind == rows.Early
	v.cutOff = v.cutOff || p.over
	if p.over {
		l.put(max(l.width, v.s.opt.Width-2), "..")
	}
	v.s.print(&l)
}
