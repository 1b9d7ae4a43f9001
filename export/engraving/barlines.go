package engraving

import (
	"cmp"
	"slices"
	"strconv"

	"tieover/layout/sheet"
)

// barlines draws the lines between bars through each run of joined staves.
func (l *line) barlines(p *path) {
	all := l.stretches()
	for b := 0; b <= len(l.rows); b++ {
		for _, s := range all {
			if b > 0 {
				l.barline(p, s, l.edges[b], l.rows[b-1].bars[0].Barline)
			}
			if b < len(l.rows) && l.rows[b].bars[0].Left == sheet.RepeatStart {
				l.repeatStart(p, s, l.music(b)-repeatRoom)
			}
		}
	}
}

// barline draws one kind of line whose right edge is at x.
func (l *line) barline(p *path, s stretch, x unit, kind sheet.Barline) {
	switch kind {
	case sheet.Double:
		l.upright(p, x-50, s.y0, x-50+barLine, s.y1)
		l.upright(p, x-barLine, s.y0, x, s.y1)
	case sheet.Final, sheet.RepeatEnd:
		l.upright(p, x-104, s.y0, x-104+barLine, s.y1)
		l.upright(p, x-thickLine, s.y0, x, s.y1)
	case sheet.Dashed:
		p.dashes(x-barLine/2, s.y0, s.y1, barLine, 45, 35)
	default:
		l.upright(p, x-barLine, s.y0, x, s.y1)
	}
	if kind == sheet.RepeatEnd {
		l.repeatDots(p, s, x-165)
	}
}

func (l *line) repeatStart(p *path, s stretch, x unit) {
	l.upright(p, x, s.y0, x+thickLine, s.y1)
	l.upright(p, x+90, s.y0, x+90+barLine, s.y1)
	l.repeatDots(p, s, x+125)
}

func (l *line) repeatDots(p *path, s stretch, x unit) {
	for i := s.first; i <= s.last; i++ {
		st := &l.staves[i]
		dy := st.between() / 2
		if st.lines%2 == 0 { // no line is in the middle
			dy = st.between()
		}
		p.sign(augmentationDot, x, st.y-dy, fullSize)
		p.sign(augmentationDot, x, st.y+dy, fullSize)
	}
}

// upright draws a piece of a barline, broken where a text stands between staves.
func (l *line) upright(p *path, x0, y0, x1, y1 unit) {
	var gaps [][2]unit
	for _, t := range l.labels {
		if t.x0-20 < x1 && x0 < t.x1+20 {
			y := l.staves[t.staff].y
			gaps = append(gaps, [2]unit{y + t.y0, y + t.y1})
		}
	}
	slices.SortFunc(gaps, func(a, b [2]unit) int { return cmp.Compare(a[0], b[0]) })
	for _, g := range gaps {
		if g[0] >= y1 || g[1] <= y0 {
			continue
		}
		if g[0] > y0 {
			p.box(x0, y0, x1, g[0])
		}
		y0 = max(y0, g[1])
	}
	if y0 < y1 {
		p.box(x0, y0, x1, y1)
	}
}

// braces draws what joins staves at the left: a line through all, brackets
// before families, braces before the staves of one part.
func (l *line) braces(p *path) {
	x := l.left
	first, last := &l.staves[0], &l.staves[len(l.staves)-1]
	if len(l.staves) > 1 {
		p.box(x, first.y-first.reach(), x+barLine, last.y+last.reach())
	}
	for _, s := range l.stretches() {
		if l.staves[s.first].part != l.staves[s.last].part {
			drawFamily(p, x, s)
		}
	}
	for i := range len(l.staves) - 1 {
		switch a, b := &l.staves[i], &l.staves[i+1]; {
		case a.part != b.part:
		case b.tab:
			drawFamily(p, x, stretch{y0: a.y - a.edge(), y1: b.y + b.edge()})
		default:
			drawBrace(p, x-25, a.y-a.edge(), b.y+b.edge())
		}
	}
}

// drawFamily draws a thick line with a tip that bends to the right at each end.
func drawFamily(p *path, x unit, s stretch) {
	p.box(x-90, s.y0-25, x-45, s.y1+25)
	for _, end := range [2]struct{ y, away unit }{{s.y0 - 25, -1}, {s.y1 + 25, 1}} {
		p.at('M', x-90, end.y)
		p.at('c', 60, 0, 100, end.away*20, 130, end.away*85)
		p.at('c', -30, -end.away*40, -60, -end.away*55, -130, -end.away*55)
		*p = append(*p, 'z')
	}
}

// drawBrace draws a brace whose tips are at x.
func drawBrace(p *path, x, y0, y1 unit) {
	h, m := y1-y0, (y0+y1)/2
	p.at('M', x, y0)
	p.at('C', x-95, y0+h.percent(16), x+15, m-h.percent(12), x-85, m)
	p.at('C', x+15, m+h.percent(12), x-95, y1-h.percent(16), x, y1)
	p.at('C', x-45, y1-h.percent(20), x+62, m+h.percent(13), x-85, m)
	p.at('C', x+62, m-h.percent(13), x-45, y0+h.percent(20), x, y0)
	*p = append(*p, 'z')
}

// names writes who plays before the staves of each part.
func (l *line) names(k *ink) {
	for i := 0; i < len(l.staves); {
		j := i
		for j+1 < len(l.staves) && l.staves[j+1].part == l.staves[i].part {
			j++
		}
		k.text(l.left-130, (l.staves[i].y+l.staves[j].y)/2+55, l.e.nameOf(l.staves[i].part), nameFace)
		i = j + 1
	}
}

// numberBars writes the number of its first bar over each line but the first.
func (l *line) numberBars() {
	bar := &l.rows[0].bars[0]
	if l.e.first || bar.Implicit || l.e.o.Unnumber {
		return
	}
	st := &l.staves[0]
	x, y := l.left-30, -st.reach()-40
	if l.joined(0) && (l.staves[1].part != 0 || l.staves[1].tab) { // over the bracket's tip
		x, y = x-30, y-80
	}
	st.texts.text(x, y, cmp.Or(bar.Printed, strconv.Itoa(bar.Number)), numberFace)
	st.add(x-100, x, y-110, y)
}

// sayTimes says how often a repeat is played that is played more than twice,
// over its first bar.
func (l *line) sayTimes() {
	for b := range l.rows {
		if r := &l.rows[b].bars[0]; r.Left == sheet.RepeatStart && r.Times > 2 {
			l.hangLane(0, upwards, lanePads[topLane], []hung{l.words(0, l.music(b), strconv.Itoa(r.Times)+" times", wordsFace)})
		}
	}
}
