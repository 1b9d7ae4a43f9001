package engraving

import "tieover/layout/sheet"

// ties draws the curves between tied heads, also over the ends of the line.
func (l *line) ties() {
	for _, v := range l.voices {
		from := -1
		for _, i := range v.spots {
			n := l.spots[i].note
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
	return l.clefIn(from.bar, from.staff) != l.clefIn(to.bar, to.staff)
}

// Ties.
const (
	tieInset    unit = 35  // over a head, from its edge
	tieBeside   unit = 12  // beside a head
	leastTie    unit = 130 // at a line's edge
	tieThick    unit = 20
	flattestTie unit = 35
	highestTie  unit = 95
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
	st := &l.staves[one.staff]
	for rank, head := range one.order {
		up := tieUp(one, from, to, rank)
		outer := up && rank == len(one.order)-1 || !up && rank == 0
		x0, x1 := l.music(one.bar)+20, l.edges[one.bar+1]-l.turnRoom(one.bar)-20
		if from != nil {
			x0 = from.tieFrom(head, up, outer)
		}
		if to != nil && head < len(to.order) {
			x1 = to.tieTo(head, up, outer)
		}
		if from == nil {
			x0 = min(x0, x1-leastTie)
		}
		y := one.y(head)
		away := unit(1)
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
	n := len(one.order)
	switch {
	case !one.free() && !one.lone:
		return one.voice.Stem == sheet.StemUp
	case n > 1 && n%2 == 1 && rank == n/2:
		return !one.up
	case n > 1:
		return rank >= n/2
	case from != nil && to != nil && from.up != to.up:
		return true
	}
	return !one.up
}

func (s *spot) tieFrom(head int, up, outer bool) unit {
	x := s.x + s.headX(head) + s.width(head)
	if outer && !(up == s.up && s.hasStem()) {
		return x - tieInset
	}
	if n := s.note.Value.Dots; n > 0 {
		return s.x + s.dotX + unit(n)*dotStep - 10
	}
	return x + tieBeside
}

func (s *spot) tieTo(head int, up, outer bool) unit {
	x := s.x + s.headX(head)
	if outer && !(up == s.up && s.hasStem() && !s.up) {
		return x + tieInset
	}
	return x - tieBeside
}

// drawTie draws a tie, thin at its ends.
func drawTie(s *lineStaff, x0, x1, y, away unit) {
	x1 = max(x1, x0+40)
	w := x1 - x0
	a := arc{x0: x0, y0: y, x1: x1, y1: y, height: min(max(w.percent(22), flattestTie), highestTie), away: away}
	a.draw(&s.fills)
	h := away * a.height
	s.add(x0+20, x1-20, min(y, y+h), max(y, y+h))
}
