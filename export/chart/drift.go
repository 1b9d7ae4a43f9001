package chart

import (
	"bufio"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"tieover/layout/strip"
	"tieover/score/beat"
)

// The drift view sets one layer's cycles under one another, each at its place
// in the bar in which it begins, so that a constant drift is a diagonal. A
// cycle that is longer than the line is cut off there, which two dots show.

// drift writes the view of every layer of the strip.
func (s *setter) drift(p *strip.Piece, said map[string]bool) error {
	for i, n := range s.st.Layers {
		if s.st.Section.Layers[n].Line != nil {
			continue // a free line has no cycles
		}
		alone := newSetter(s.out, s.opt, strip.Of(s.st.Section, []int{n}))
		alone.letters[0] = s.letters[i]
		v := driftView{s: alone, layer: n, letter: s.letters[i]}
		if err := v.fit(); err != nil {
			return err
		}
		v.rows(bufio.NewWriter(io.Discard)) // to see what the legend must explain
		v.s.out = s.out
		v.heading(p, said)
		v.rows(s.out)
		if i+1 < len(s.st.Layers) {
			fmt.Fprintln(s.out)
		}
	}
	return nil
}

// driftView is the view of one layer.
type driftView struct {
	s      *setter
	layer  int
	letter string
	label  int  // columns before the first barline
	late   bool // some cycle is late or early
	cutOff bool // some cycle is cut off at the line's end
}

// fit chooses two columns a pulse, or one if a bar has no room for that.
func (v *driftView) fit() error {
	bars := v.s.st.BarCount()
	last := strconv.Itoa(v.s.st.Section.Bar(bars).Number)
	v.label = len("   #  ") + max(len("bar"), len(last)+1+v.longestLabel()) + len("  ") + v.longestLateness() + 1
	room := v.s.opt.Width - v.label - 1
	for _, apart := range []int{2, 1} {
		v.s.scale = newScale(v.s.st, apart, 1, 1<<30)
		v.s.scale.pad = 0
		if v.widestBar() <= room {
			return nil
		}
	}
	name, needs := v.s.st.Section.Layers[v.layer].Name, v.label+1+v.widestBar()
	if needs > Widest {
		return fmt.Errorf("layer %q: a bar needs %d columns in the drift view, more than the %d that a line may have; draw it with the chart, or leave the layer out by --layers",
			name, needs, Widest)
	}
	return fmt.Errorf("layer %q: a bar needs %d columns in the drift view; give --width %d or more", name, v.widestBar(), needs)
}

// longestLabel is how many columns labels take; longer ones are clipped.
func (v *driftView) longestLabel() int {
	labels := []string{v.s.sum.Last.Label}
	for _, r := range v.s.sum.Realignments {
		labels = append(labels, r.Label)
	}
	for _, e := range v.s.st.Section.Plan {
		labels = append(labels, e.Mark)
	}
	longest := 0
	for _, l := range labels {
		longest = max(longest, width(v.s.spell(l)))
	}
	return min(longest, mostLabel)
}

const mostLabel = 10

// longestLateness is how many columns it takes to say that a head is almost a
// bar early, or as early as the layer begins.
func (v *driftView) longestLateness() int {
	l := v.s.st.Section.Layers[v.layer]
	unit := l.Unit
	bar := slices.Max(v.s.st.BarLengths())
	words := "early " + strconv.FormatInt(max(int64(bar/unit), -int64(l.Offset)), 10)
	if part := unit / beat.Time(beat.GCD(int64(unit), int64(v.s.step))); part > 1 {
		words += fmt.Sprintf(" %d/%d", part-1, part)
	}
	return max(len(words), len("late 12 1/2"))
}

func (v *driftView) widestBar() int {
	widest := 0
	for _, length := range v.s.st.BarLengths() {
		widest = max(widest, v.s.scale.bar(length))
	}
	return widest
}

func (v *driftView) heading(p *strip.Piece, said map[string]bool) {
	if v.s.opt.Bare {
		return
	}
	section := v.s.st.Section
	l := section.Layers[v.layer]
	items := []string{strings.ToUpper(v.s.spell(p.Title))}
	if section.Name != "" {
		items[0] += ", " + v.s.spell(section.Name)
	}
	items = append(items, fmt.Sprintf("%s %s: %s against %s", v.letter, v.s.spell(l.Name), strip.Grouping(l, 12), section.Meter))
	for _, text := range wrap(items, "   ", v.s.opt.Width) {
		fmt.Fprintln(v.s.out, text)
	}
	var legend []string
	all := append(v.s.struckLegend(), v.s.soundingLegend()...)
	if v.s.sum.Highest >= 10 || v.s.shortensBeats() {
		all = append(all, "0 for 10 and so on")
	}
	if v.s.sum.Signs[strip.Silent] {
		all = append(all, ". silent")
	}
	if v.late {
		all = append(all, "late, early: in pulses of the layer")
	}
	if v.cutOff {
		all = append(all, ".. the cycle goes on")
	}
	for _, item := range all {
		if !said[item] {
			legend = append(legend, item)
			said[item] = true
		}
	}
	for _, text := range wrap(legend, "   ", v.s.opt.Width) {
		fmt.Fprintln(v.s.out, text)
	}
	fmt.Fprintln(v.s.out)
}

// pass is one cycle on its way to a line.
type pass struct {
	start strip.Start
	label string
	bar   int       // number of the bar it begins in
	from  beat.Time // that bar's start in the section
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
	for b := range v.s.st.Bars() {
		row := &b.Rows[0]
		next := 0
		if p.begun {
			v.barline(&p, b.Start)
		}
		for _, c := range row.Cells {
			if next < len(row.Starts) && row.Starts[next].At == c.At {
				if start := row.Starts[next]; start.Number > 0 {
					v.line(&p, first, last)
					p = pass{start: start, bar: b.Number, from: b.Start, begun: true, cells: p.cells[:0], lines: p.lines[:0]}
					for _, l := range b.Labels {
						if l.At == start.At {
							p.label = clip(v.s.spell(l.Text), mostLabel)
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
	if l, ok := v.s.st.Landing(); ok && l.Rows[0].Begins && last == v.s.st.BarCount() {
		var end line
		end.put(6, strings.TrimSpace(strconv.Itoa(l.Number)+" "+clip(v.s.spell(l.Label), mostLabel)))
		end.put(v.label, "|X")
		fmt.Fprintln(out, end.String())
	}
}

// count writes the spoken count over the bars, where all bars are alike.
func (v *driftView) count() {
	var l line
	l.put(0, "   #  bar")
	if v.s.st.Equal() {
		for b := range v.s.st.Bars() {
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
	fmt.Fprintln(v.s.out, l.String())
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

func (v *driftView) cell(p *pass, t beat.Time, c strip.Cell) {
	if !p.begun || p.over {
		return
	}
	col := v.column(p, t)
	if col >= v.s.opt.Width-2 {
		p.over = true
		return
	}
	text := signs[c.Sign]
	if c.Sign == strip.Sounding {
		text = lastDigits(strconv.Itoa(c.Count), 1)
	}
	p.cells = append(p.cells, token{col, text})
}

// line writes a finished pass.
func (v *driftView) line(p *pass, first, last int) {
	offset := v.s.st.Section.FirstBar - 1
	if !p.begun || p.bar-offset < first || p.bar-offset > last {
		return
	}
	var l line
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
	v.late = v.late || p.start.Lateness.Kind == strip.Late || p.start.Lateness.Kind == strip.Early
	v.cutOff = v.cutOff || p.over
	if p.over {
		l.put(max(l.width, v.s.opt.Width-2), "..")
	}
	fmt.Fprintln(v.s.out, l.String())
}
