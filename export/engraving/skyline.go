package engraving

import "slices"

// cell is the width of a step of a skyline.
const cell unit = 50

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
func (l *canvas) occupy(what string, staff int, x0, y0, x1, y1 unit) {
	l.staves[staff].add(x0, x1, y0, y1)
	l.watched(what, staff, x0, y0, x1, y1)
}

// watched notes where something is drawn, if a test asks for it.
func (l *canvas) watched(what string, staff int, x0, y0, x1, y1 unit) {
	if l.watch {
		l.boxes = append(l.boxes, box{what, staff, x0, min(y0, y1), x1, max(y0, y1)})
	}
}
