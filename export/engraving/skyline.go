package engraving

import "slices"

// cell is the width of a step of a skyline.
const cell unit = 50

// skylines begin at the lines of the staves, with the signs at the edges of bars.
func (l *line) skylines() {
	n := int(l.width+l.tail.width)/int(cell) + 8
	if need := 2 * n * len(l.staves); cap(l.e.skies) < need {
		l.e.skies = make([]unit, need)
	}
	room := l.e.skies[:cap(l.e.skies)]
	for i := range l.staves {
		s := &l.staves[i]
		s.up, s.down, room = room[:n:n], room[n:2*n:2*n], room[2*n:]
		for k := range s.up {
			s.up[k], s.down[k] = -s.reach(), s.reach()
		}
	}
	for b := range l.rows {
		for i := range l.staves {
			l.staves[i].addPrefix(l, b, i)
		}
		if l.rows[b].rest > 0 {
			mid := l.middle(b)
			for i := range l.staves {
				if l.staves[i].tab {
					continue
				}
				l.staves[i].add(mid-200, mid+200, -450, 100)
			}
		}
	}
}

func (s *lineStaff) addPrefix(l *line, b, i int) {
	if s.tab { // everything stands between its lines
		return
	}
	p, x := &l.prefix[b], l.edges[b]
	if p.clef >= 0 {
		up, down := clefReach(l.clefIn(b, i), fullSize)
		s.add(x+p.clef+50, x+p.clef+230, up, down)
	}
	if c, turns := l.turn(b, i); turns {
		up, down := clefReach(c, smallClef)
		s.add(l.turnX(b), l.turnX(b)+clefRoom.percent(smallClef), up, down)
	}
	if k := l.keyBefore(b, i); k.width() > 0 {
		s.add(x+p.key, x+p.key+k.width()-keyLead, -330, 250)
	}
	if bar := &l.rows[b].bars[s.part]; p.time >= 0 && bar.NewMeter {
		s.add(x+p.time, x+p.time+timeWidth(bar.Measure.Signature), -200, 200)
	}
}

func (s *lineStaff) cells(x0, x1 unit) (int, int) {
	return max(0, min(int(x0/cell), len(s.up)-1)), max(0, min(len(s.up)-1, int(x1/cell)))
}

// add takes a place; y0 and y1 are its edges in either order.
func (s *lineStaff) add(x0, x1, y0, y1 unit) {
	if y0 > y1 {
		y0, y1 = y1, y0
	}
	a, b := s.cells(x0, x1)
	for k := a; k <= b; k++ {
		s.up[k], s.down[k] = min(s.up[k], y0), max(s.down[k], y1)
	}
}

// outside is how far things reach on one side between two places.
func (s *lineStaff) outside(away, x0, x1 unit) unit {
	a, b := s.cells(x0, x1)
	if away == upwards {
		return slices.Min(s.up[a : b+1])
	}
	return slices.Max(s.down[a : b+1])
}

// occupy takes the place of a sign on its staff and notes it for tests.
func (l *line) occupy(what string, staff int, x0, y0, x1, y1 unit) {
	l.staves[staff].add(x0, x1, y0, y1)
	l.watched(what, staff, x0, y0, x1, y1)
}

// watched notes where something is drawn, if a test asks for it.
func (l *line) watched(what string, staff int, x0, y0, x1, y1 unit) {
	if l.e.watch {
		l.boxes = append(l.boxes, box{what, staff, x0, min(y0, y1), x1, max(y0, y1)})
	}
}
