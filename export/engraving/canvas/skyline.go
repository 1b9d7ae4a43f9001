package canvas

import (
	"slices"

	"tieover/export/engraving/pen"
)

// Cell is the width of a step of a skyline.
const Cell pen.Unit = 50

func (s *Staff) cells(x0, x1 pen.Unit) (int, int) {
	return max(0, min(int(x0/Cell), len(s.Up)-1)), max(0, min(len(s.Up)-1, int(x1/Cell)))
}

// Add takes a place; y0 and y1 are its edges in either order.
func (s *Staff) Add(x0, x1, y0, y1 pen.Unit) {
	if y0 > y1 {
		y0, y1 = y1, y0
	}
	a, b := s.cells(x0, x1)
	for k := a; k <= b; k++ {
		s.Up[k], s.Down[k] = min(s.Up[k], y0), max(s.Down[k], y1)
	}
}

// Outside is how far things reach on one side between two places.
func (s *Staff) Outside(away, x0, x1 pen.Unit) pen.Unit {
	a, b := s.cells(x0, x1)
	if away == pen.Upwards {
		return slices.Min(s.Up[a : b+1])
	}
	return slices.Max(s.Down[a : b+1])
}

// Occupy takes the place of a sign on its staff and notes it for tests.
func (c *Canvas) Occupy(what string, staff int, x0, y0, x1, y1 pen.Unit) {
	c.Staves[staff].Add(x0, x1, y0, y1)
	c.Watched(what, staff, x0, y0, x1, y1)
}

// Watched notes where something is drawn, if a test asks for it.
func (c *Canvas) Watched(what string, staff int, x0, y0, x1, y1 pen.Unit) {
	if c.watch {
		c.Boxes = append(c.Boxes, Box{what, staff, x0, min(y0, y1), x1, max(y0, y1)})
	}
}
