package engraving

import (
	"cmp"
	"slices"
	"strconv"

	"tieover/export/engraving/canvas"
	"tieover/export/engraving/pen"
	"tieover/export/engraving/spacing"
	"tieover/layout/sheet"
)

// barlines draws the lines between bars through each run of joined staves.
func (l *line) barlines(p *pen.Path) {
	all := l.stretches()
	for b := 0; b <= len(l.Rows); b++ {
		for _, s := range all {
			if b > 0 {
				l.barline(p, s, l.Edges[b], l.Rows[b-1].Bars[0].Barline)
			}
			if b < len(l.Rows) && l.Rows[b].Bars[0].Left == sheet.RepeatStart {
				l.repeatStart(p, s, l.Music(b)-spacing.RepeatRoom)
			}
		}
	}
}

// barline draws one kind of line whose right edge is at x.
func (l *line) barline(p *pen.Path, s stretch, x pen.Unit, kind sheet.Barline) {
	switch kind {
	case sheet.Double:
		l.upright(p, x-50, s.y0, x-50+pen.BarLine, s.y1)
		l.upright(p, x-pen.BarLine, s.y0, x, s.y1)
	case sheet.Final, sheet.RepeatEnd:
		l.upright(p, x-104, s.y0, x-104+pen.BarLine, s.y1)
		l.upright(p, x-pen.ThickLine, s.y0, x, s.y1)
	case sheet.Dashed:
		p.Dashes(x-pen.BarLine/2, s.y0, s.y1, pen.BarLine, 45, 35)
	default:
		l.upright(p, x-pen.BarLine, s.y0, x, s.y1)
	}
	if kind == sheet.RepeatEnd {
		l.repeatDots(p, s, x-165)
	}
}

func (l *line) repeatStart(p *pen.Path, s stretch, x pen.Unit) {
	l.upright(p, x, s.y0, x+pen.ThickLine, s.y1)
	l.upright(p, x+90, s.y0, x+90+pen.BarLine, s.y1)
	l.repeatDots(p, s, x+125)
}

func (l *line) repeatDots(p *pen.Path, s stretch, x pen.Unit) {
	for i := s.first; i <= s.last; i++ {
		st := &l.Staves[i]
		dy := st.Between() / 2
		if st.Lines%2 == 0 { // no line is in the middle
			dy = st.Between()
		}
		p.Sign(pen.AugmentationDot, x, st.Y-dy, pen.FullSize)
		p.Sign(pen.AugmentationDot, x, st.Y+dy, pen.FullSize)
	}
}

// upright draws a piece of a barline, broken where a text stands between staves.
func (l *line) upright(p *pen.Path, x0, y0, x1, y1 pen.Unit) {
	var gaps [][2]pen.Unit
	for _, t := range l.Labels {
		if t.X0-20 < x1 && x0 < t.X1+20 {
			y := l.Staves[t.Staff].Y
			gaps = append(gaps, [2]pen.Unit{y + t.Y0, y + t.Y1})
		}
	}
	slices.SortFunc(gaps, func(a, b [2]pen.Unit) int { return cmp.Compare(a[0], b[0]) })
	for _, g := range gaps {
		if g[0] >= y1 || g[1] <= y0 {
			continue
		}
		if g[0] > y0 {
			p.Box(x0, y0, x1, g[0])
		}
		y0 = max(y0, g[1])
	}
	if y0 < y1 {
		p.Box(x0, y0, x1, y1)
	}
}

// braces draws what joins staves at the left: a line through all, brackets
// before families, braces before the staves of one part.
func (l *line) braces(p *pen.Path) {
	x := l.Left
	first, last := &l.Staves[0], &l.Staves[len(l.Staves)-1]
	if len(l.Staves) > 1 {
		p.Box(x, first.Y-first.Reach(), x+pen.BarLine, last.Y+last.Reach())
	}
	for _, s := range l.stretches() {
		if l.Staves[s.first].Part != l.Staves[s.last].Part {
			drawFamily(p, x, s)
		}
	}
	for i := range len(l.Staves) - 1 {
		switch a, b := &l.Staves[i], &l.Staves[i+1]; {
		case a.Part != b.Part:
		case b.Tab:
			drawFamily(p, x, stretch{y0: a.Y - a.Edge(), y1: b.Y + b.Edge()})
		default:
			drawBrace(p, x-25, a.Y-a.Edge(), b.Y+b.Edge())
		}
	}
}

// drawFamily draws a thick line with a tip that bends to the right at each end.
func drawFamily(p *pen.Path, x pen.Unit, s stretch) {
	p.Box(x-90, s.y0-25, x-45, s.y1+25)
	for _, end := range [2]struct{ y, away pen.Unit }{{s.y0 - 25, -1}, {s.y1 + 25, 1}} {
		p.At('M', x-90, end.y)
		p.At('c', 60, 0, 100, end.away*20, 130, end.away*85)
		p.At('c', -30, -end.away*40, -60, -end.away*55, -130, -end.away*55)
		*p = append(*p, 'z')
	}
}

// drawBrace draws a brace whose tips are at x.
func drawBrace(p *pen.Path, x, y0, y1 pen.Unit) {
	h, m := y1-y0, (y0+y1)/2
	p.At('M', x, y0)
	p.At('C', x-95, y0+h.Percent(16), x+15, m-h.Percent(12), x-85, m)
	p.At('C', x+15, m+h.Percent(12), x-95, y1-h.Percent(16), x, y1)
	p.At('C', x-45, y1-h.Percent(20), x+62, m+h.Percent(13), x-85, m)
	p.At('C', x+62, m-h.Percent(13), x-45, y0+h.Percent(20), x, y0)
	*p = append(*p, 'z')
}

// names writes who plays before the staves of each part.
func (l *line) names(k *pen.Ink) {
	for i := 0; i < len(l.Staves); {
		j := i
		for j+1 < len(l.Staves) && l.Staves[j+1].Part == l.Staves[i].Part {
			j++
		}
		k.Text(l.Left-130, (l.Staves[i].Y+l.Staves[j].Y)/2+55, l.e.NameOf(l.Staves[i].Part), pen.NameFace)
		i = j + 1
	}
}

// numberBars writes the number of its first bar over each line but the first.
func (l *line) numberBars() {
	bar := &l.Rows[0].Bars[0]
	if l.e.First || bar.Implicit || l.e.o.Unnumber {
		return
	}
	st := &l.Staves[0]
	x, y := l.Left-30, -st.Reach()-40
	if l.joined(0) && (l.Staves[1].Part != 0 || l.Staves[1].Tab) { // over the bracket's tip
		x, y = x-30, y-80
	}
	st.Texts.Text(x, y, cmp.Or(bar.Printed, strconv.Itoa(bar.Number)), pen.NumberFace)
	st.Add(x-100, x, y-110, y)
}

// sayTimes says how often a repeat is played that is played more than twice,
// over its first bar.
func (l *line) sayTimes() {
	for b := range l.Rows {
		if r := &l.Rows[b].Bars[0]; r.Left == sheet.RepeatStart && r.Times > 2 {
			l.HangLane(0, canvas.TopLane, pen.Upwards, []canvas.Hung{l.Words(0, l.Music(b), strconv.Itoa(r.Times)+" times", pen.WordsFace)})
		}
	}
}
