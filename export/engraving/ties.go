package engraving

import (
	"tieover/export/engraving/canvas"
	"tieover/export/engraving/content"
	"tieover/export/engraving/pen"
	"tieover/layout/sheet"
)

// ties draws the curves between tied heads, also over the ends of the line.
func (l *line) ties() {
	for _, v := range l.Voices {
		from := -1
		for _, i := range v.Spots {
			n := l.spots[i].Note
			if n == nil {
				from = -1
				continue
			}
			switch {
			case n.TieIn && from >= 0 && l.turnsBetween(from, i): // the heads are not at one height
				l.tie(from, -1)
				l.tie(-1, i)
			case n.TieIn:
				l.tie(from, i)
			}
			from = -1
			if n.TieOut {
				from = i
			}
		}
		if from >= 0 {
			l.tie(from, -1)
		}
	}
}

// turnsBetween reports whether the clef changes between two spots of a staff.
func (l *line) turnsBetween(a, b int) bool {
	from, to := &l.spots[a], &l.spots[b]
	return l.ClefIn(from.Bar, from.Staff) != l.ClefIn(to.Bar, to.Staff)
}

// Ties.
const (
	tieInset    pen.Unit = 35  // over a head, from its edge
	tieBeside   pen.Unit = 12  // beside a head
	leastTie    pen.Unit = 130 // at a line's edge
	tieThick    pen.Unit = 20
	flattestTie pen.Unit = 35
	highestTie  pen.Unit = 95
)

// tie draws the ties of a chord; -1 is beyond the edge of the line, or of the bar.
func (l *line) tie(a, b int) {
	var from, to *spot
	if a >= 0 {
		from = &l.spots[a]
	}
	if b >= 0 {
		to = &l.spots[b]
	}
	one := from
	if one == nil {
		one = to
	}
	st := &l.Staves[one.Staff]
	for rank, head := range one.Order {
		up := tieUp(one, from, to, rank)
		outer := up && rank == len(one.Order)-1 || !up && rank == 0
		x0, x1 := l.Music(one.Bar)+20, l.Edges[one.Bar+1]-l.TurnRoom(one.Bar)-20
		if from != nil {
			x0 = from.tieFrom(head, up, outer)
		}
		if to != nil && head < len(to.Order) {
			x1 = to.tieTo(head, up, outer)
		}
		if from == nil {
			x0 = min(x0, x1-leastTie)
		}
		y := one.Y(head)
		away := pen.Unit(1)
		if up {
			away = -1
		}
		if outer {
			y += away * 58
		} else {
			y += away * 28
		}
		drawTie(st, x0, x1, y, away)
	}
}

// tieUp chooses the side of a tie: away from the stem; of a chord the upper
// ones go up; a voice with a side keeps it.
func tieUp(one, from, to *spot, rank int) bool {
	n := len(one.Order)
	switch {
	case !one.Free() && !one.Lone:
		return one.Voice.Stem == sheet.StemUp
	case n > 1 && n%2 == 1 && rank == n/2:
		return !one.Up
	case n > 1:
		return rank >= n/2
	case from != nil && to != nil && from.Up != to.Up:
		return true
	}
	return !one.Up
}

func (s *spot) tieFrom(head int, up, outer bool) pen.Unit {
	x := s.X + s.HeadX(head) + s.Width(head)
	if outer && !(up == s.Up && s.HasStem()) {
		return x - tieInset
	}
	if n := s.Note.Value.Dots; n > 0 {
		return s.X + s.DotX + pen.Unit(n)*content.DotStep - 10
	}
	return x + tieBeside
}

func (s *spot) tieTo(head int, up, outer bool) pen.Unit {
	x := s.X + s.HeadX(head)
	if outer && !(up == s.Up && s.HasStem() && !s.Up) {
		return x + tieInset
	}
	return x - tieBeside
}

// drawTie draws a tie, thin at its ends.
func drawTie(s *canvas.Staff, x0, x1, y, away pen.Unit) {
	x1 = max(x1, x0+40)
	w := x1 - x0
	a := arc{x0: x0, y0: y, x1: x1, y1: y, height: min(max(w.Percent(22), flattestTie), highestTie), away: away}
	a.draw(&s.Fills)
	h := away * a.height
	s.Add(x0+20, x1-20, min(y, y+h), max(y, y+h))
}
