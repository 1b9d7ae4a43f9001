package engraving

import (
	"cmp"
	"slices"

	"tieover/score/beat"
)

// stroke is a number of tablature: where two layers strike it together, it is one.
type stroke struct {
	bar    int
	at     beat.Time
	string int8
	led    unit // where it stands before its note, 0 for what is no grace note
}

// tablature writes the numbers of all notes on the strings.
func (l *line) tablature() {
	for i := range l.staves {
		st := &l.staves[i]
		if !st.tab {
			continue
		}
		written := map[stroke]bool{}
		for k := range l.spots {
			if s := &l.spots[k]; s.part == st.part {
				s.eachFret(func(n *item, head int, middle unit) {
					now := stroke{s.bar, s.event.At(), n.note.Heads[head].Stop.String, min(middle, 0)}
					if !written[now] {
						l.fret(i, n, head, s.x+middle)
					}
					written[now] = true
				})
			}
		}
	}
}

// fret writes one number on its line, which is broken there.
func (l *line) fret(i int, n *item, head int, x unit) {
	st, f, text := &l.staves[i], n.fretFace(), n.fretText(head)
	line := int(n.note.Heads[head].Stop.String) - 1
	y := unit(line)*stringGap - st.edge()
	x0, x1 := f.span(x, text)
	st.texts.text(x, y+f.rise()/2, text, f)
	st.gaps = append(st.gaps, gap{line, x0 - fretAir, x1 + fretAir})
	l.occupy("fret", i, x0, y-f.rise()/2, x1, y+f.rise()/2)
}

// drawLines draws the lines of a staff, those of tablature, broken where numbers stand.
func drawLines(s *lineStaff, p *path, from, to unit) {
	slices.SortFunc(s.gaps, func(a, b gap) int { return cmp.Or(a.line-b.line, cmp.Compare(a.x0, b.x0)) })
	gaps := s.gaps
	for n := range s.lines {
		x := from
		for len(gaps) > 0 && gaps[0].line == n {
			if gaps[0].x0 > x {
				drawLine(s, p, n, x, gaps[0].x0)
			}
			x, gaps = max(x, gaps[0].x1), gaps[1:]
		}
		drawLine(s, p, n, x, to)
	}
}

func drawLine(s *lineStaff, p *path, n int, x0, x1 unit) {
	p.at('M', x0, s.y-s.edge()+unit(n)*s.between())
	p.at('H', x1)
}

// drawTab writes the word that is the clef of tablature, letter below letter.
func drawTab(s *lineStaff, x unit) {
	f := tabFace
	f.size = 2 * s.edge() / 3
	step := f.size.percent(90)
	for i, letter := range []string{"T", "A", "B"} {
		s.texts.text(x+120, unit(i-1)*step+f.rise()/2, letter, f)
	}
}
