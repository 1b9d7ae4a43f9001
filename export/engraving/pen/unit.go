package pen

import "strconv"

// Unit is a length in 1/100 staff space.
type Unit int

// Space is the distance between two lines of a staff.
const Space Unit = 100

// Widths of lines.
const (
	StaffLine  = 11
	StemLine   = 14
	BarLine    = 14
	ThickLine  = 50
	LedgerLine = 15
	MarkLine   = 12 // brackets, boxes, hairpins
)

// Directions, since y grows downwards: what is measured away from a staff is
// multiplied by one.
const (
	Upwards   Unit = -1
	Downwards Unit = 1
)

// Direction is upwards or downwards.
func Direction(up bool) Unit {
	if up {
		return Upwards
	}
	return Downwards
}

// Farther is the one of two heights that is farther in a direction.
func Farther(away, a, b Unit) Unit { return away * max(away*a, away*b) }

// Nowhere is farther back than anything.
const Nowhere = Unit(-1 << 30)

// Percent scales a length.
func (u Unit) Percent(n int) Unit { return u * Unit(n) / 100 }

// appendTo writes a length as it is drawn, with ten drawing units to a space
// and at most one decimal.
func (u Unit) appendTo(b []byte) []byte {
	if u < 0 {
		b, u = append(b, '-'), -u
	}
	b = strconv.AppendInt(b, int64(u/10), 10)
	if u%10 != 0 {
		b = append(b, '.', byte('0'+u%10))
	}
	return b
}

// Path collects the steps of an SVG path.
type Path []byte

// At adds a command with its numbers.
func (p *Path) At(cmd byte, numbers ...Unit) {
	b := append(*p, cmd)
	for i, n := range numbers {
		if i > 0 && n >= 0 {
			b = append(b, ' ')
		}
		b = n.appendTo(b)
	}
	*p = b
}

// Box adds a filled rectangle.
func (p *Path) Box(x0, y0, x1, y1 Unit) {
	p.At('M', x0, y0)
	p.At('H', x1)
	p.At('V', y1)
	p.At('H', x0)
	*p = append(*p, 'z')
}

// Slanted adds a bar from x0 to x1 with upright ends, whose upper edge goes from y0 to y1.
func (p *Path) Slanted(x0, y0, x1, y1, thick Unit) {
	p.At('M', x0, y0)
	p.At('L', x1, y1)
	p.At('v', thick)
	p.At('L', x0, y0+thick)
	*p = append(*p, 'z')
}

// Dashes adds an upright dashed line about x.
func (p *Path) Dashes(x, y0, y1, width, dash, gap Unit) {
	for y := y0; y < y1; y += dash + gap {
		p.Box(x-width/2, y, x+width/2, min(y+dash, y1))
	}
}
