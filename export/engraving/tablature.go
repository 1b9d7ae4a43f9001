package engraving

import (
	"cmp"
	"slices"

	"tieover/export/engraving/canvas"
	"tieover/export/engraving/content"
	"tieover/export/engraving/pen"
	"tieover/score/beat"
)

// stroke is a number of tablature: where two layers strike it together, it is one.
type stroke struct {
	bar    int
	at     beat.Time
	string int8
	led    pen.Unit // where it stands before its note, 0 for what is no grace note
}

// tablature writes the numbers of all notes on the strings.
func (l *line) tablature() {
	for i := range l.Staves {
		st := &l.Staves[i]
		if !st.Tab {
			continue
		}
		written := map[stroke]bool{}
		for k := range l.spots {
			if s := &l.spots[k]; s.Part == st.Part {
				s.EachFret(func(n *content.Item, head int, middle pen.Unit) {
					now := stroke{s.Bar, s.Event.At(), n.Note.Heads[head].Stop.String, min(middle, 0)}
					if !written[now] {
						l.fret(i, n, head, s.X+middle)
					}
					written[now] = true
				})
			}
		}
	}
}

// fret writes one number on its line, which is broken there.
func (l *line) fret(i int, n *content.Item, head int, x pen.Unit) {
	st, f, text := &l.Staves[i], n.FretFace(), n.FretText(head)
	line := int(n.Note.Heads[head].Stop.String) - 1
	y := pen.Unit(line)*content.StringGap - st.Edge()
	x0, x1 := f.Span(x, text)
	st.Texts.Text(x, y+f.Rise()/2, text, f)
	st.Gaps = append(st.Gaps, canvas.Gap{Line: line, X0: x0 - content.FretAir, X1: x1 + content.FretAir})
	l.Occupy("fret", i, x0, y-f.Rise()/2, x1, y+f.Rise()/2)
}

// drawLines draws the lines of a staff, those of tablature, broken where numbers stand.
func drawLines(s *canvas.Staff, p *pen.Path, from, to pen.Unit) {
	slices.SortFunc(s.Gaps, func(a, b canvas.Gap) int { return cmp.Or(a.Line-b.Line, cmp.Compare(a.X0, b.X0)) })
	gaps := s.Gaps
	for n := range s.Lines {
		x := from
		for len(gaps) > 0 && gaps[0].Line == n {
			if gaps[0].X0 > x {
				drawLine(s, p, n, x, gaps[0].X0)
			}
			x, gaps = max(x, gaps[0].X1), gaps[1:]
		}
		drawLine(s, p, n, x, to)
	}
}

func drawLine(s *canvas.Staff, p *pen.Path, n int, x0, x1 pen.Unit) {
	p.At('M', x0, s.Y-s.Edge()+pen.Unit(n)*s.Between())
	p.At('H', x1)
}

// drawTab writes the word that is the clef of tablature, letter below letter.
func drawTab(s *canvas.Staff, x pen.Unit) {
	f := pen.TabFace
	f.Size = 2 * s.Edge() / 3
	step := f.Size.Percent(90)
	for i, letter := range []string{"T", "A", "B"} {
		s.Texts.Text(x+120, pen.Unit(i-1)*step+f.Rise()/2, letter, f)
	}
}
