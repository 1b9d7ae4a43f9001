package engraving

import "strconv"

// unit is a length in 1/100 staff space.
type unit int

const space unit = 100 // between two lines of a staff

// Widths of lines.
const (
	staffLine  = 11
	stemLine   = 14
	barLine    = 14
	thickLine  = 50
	ledgerLine = 15
	markLine   = 12 // brackets, boxes, hairpins
)

// Directions, since y grows downwards: what is measured away from a staff is
// multiplied by one.
const (
	upwards   unit = -1
	downwards unit = 1
)

func direction(up bool) unit {
	if up {
		return upwards
	}
	return downwards
}

// farther is the one of two heights that is farther in a direction.
func farther(away, a, b unit) unit { return away * max(away*a, away*b) }

// nowhere is farther back than anything.
const nowhere = unit(-1 << 30)

// percent scales a length.
func (u unit) percent(n int) unit { return u * unit(n) / 100 }

// appendTo writes a length as it is drawn, with ten drawing units to a space
// and at most one decimal.
func (u unit) appendTo(b []byte) []byte {
	if u < 0 {
		b, u = append(b, '-'), -u
	}
	b = strconv.AppendInt(b, int64(u/10), 10)
	if u%10 != 0 {
		b = append(b, '.', byte('0'+u%10))
	}
	return b
}

// A path collects the steps of an SVG path.
type path []byte

// at adds a command with its numbers.
func (p *path) at(cmd byte, numbers ...unit) {
	b := append(*p, cmd)
	for i, n := range numbers {
		if i > 0 && n >= 0 {
			b = append(b, ' ')
		}
		b = n.appendTo(b)
	}
	*p = b
}

// box adds a filled rectangle.
func (p *path) box(x0, y0, x1, y1 unit) {
	p.at('M', x0, y0)
	p.at('H', x1)
	p.at('V', y1)
	p.at('H', x0)
	*p = append(*p, 'z')
}

// slanted adds a bar from x0 to x1 with upright ends, whose upper edge goes from y0 to y1.
func (p *path) slanted(x0, y0, x1, y1, thick unit) {
	p.at('M', x0, y0)
	p.at('L', x1, y1)
	p.at('v', thick)
	p.at('L', x0, y0+thick)
	*p = append(*p, 'z')
}

// dashes adds an upright dashed line about x.
func (p *path) dashes(x, y0, y1, width, dash, gap unit) {
	for y := y0; y < y1; y += dash + gap {
		p.box(x-width/2, y, x+width/2, min(y+dash, y1))
	}
}
