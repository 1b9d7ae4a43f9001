package pen

import (
	"math/big"
	"slices"
)

// outline is the shape of a sign about its origin, in steps of SVG paths with
// absolute places: M and L with a point, C with three, A with two radii, a tilt
// in degrees, two switches and a point, Z with nothing.
type outline []step

type step struct {
	cmd     byte
	numbers []Unit
}

func shape(parts ...outline) outline { return slices.Concat(parts...) }

// polygon joins points, each an x and a y, by straight lines.
func polygon(points ...Unit) outline {
	var o outline
	for p := range slices.Chunk(points, 2) {
		o = append(o, step{'L', p})
	}
	o[0].cmd = 'M'
	return append(o, step{cmd: 'Z'})
}

func rectangle(x0, y0, x1, y1 Unit) outline { return polygon(x0, y0, x1, y0, x1, y1, x0, y1) }

// tilt is an angle with its cosine and sine in thousandths.
type tilt struct{ degrees, cos, sin Unit }

var upright = tilt{0, 1000, 0}

// ellipse is filled; as a hole it turns the other way round and takes what is
// under it away.
func ellipse(x, y, rx, ry Unit, t tilt, hole bool) outline {
	dx, dy := rx*t.cos/1000, rx*t.sin/1000
	sweep := Unit(1)
	if hole {
		sweep = 0
	}
	return outline{
		{'M', []Unit{x - dx, y - dy}},
		{'A', []Unit{rx, ry, t.degrees, 1, sweep, x + dx, y + dy}},
		{'A', []Unit{rx, ry, t.degrees, 1, sweep, x - dx, y - dy}},
		{cmd: 'Z'},
	}
}

func disc(x, y, r Unit) outline { return ellipse(x, y, r, r, upright, false) }

// touch is a point of a brush's way with the width of the brush there.
type touch struct{ x, y, width Unit }

// sixteenths is what brush works in: all the points it finds are whole then.
const sixteenths = 16

// brush draws along a smooth curve through the points with a brush of changing
// width. The curve is Catmull and Rom's (1974, from memory): through each point
// in the direction of its neighbors.
func brush(points ...touch) outline {
	n := len(points)
	at := func(i int) touch {
		switch {
		case i < 0:
			a, b := points[0], points[1]
			return touch{2*a.x - b.x, 2*a.y - b.y, 2*a.width - b.width}
		case i >= n:
			a, b := points[n-1], points[n-2]
			return touch{2*a.x - b.x, 2*a.y - b.y, 2*a.width - b.width}
		}
		return points[i]
	}
	var left, right [][2]Unit
	for i := range n {
		a, b, c, d := at(i-1), at(i), at(i+1), at(i+2)
		sides(&left, &right, touch{sixteenths * b.x, sixteenths * b.y, sixteenths * b.width}, 4*(c.x-a.x), 4*(c.y-a.y))
		if i < n-1 { // halfway to the next
			mid := func(a, b, c, d Unit) Unit { return 9*(b+c) - a - d }
			way := func(a, b, c, d Unit) Unit { return a - d + 11*(c-b) }
			sides(&left, &right, touch{mid(a.x, b.x, c.x, d.x), mid(a.y, b.y, c.y, d.y), mid(a.width, b.width, c.width, d.width)},
				way(a.x, b.x, c.x, d.x), way(a.y, b.y, c.y, d.y))
		}
	}
	slices.Reverse(right)
	o := outline{{'M', rounded(left[0])}}
	o = append(o, smooth(left)...)
	o = append(o, step{'L', rounded(right[0])})
	o = append(o, smooth(right)...)
	return append(o, step{cmd: 'Z'})
}

// sides adds the edges of the brush at a point, square to the direction.
func sides(left, right *[][2]Unit, p touch, dx, dy Unit) {
	const fine = 1000
	length := root(fine * fine * (int64(dx)*int64(dx) + int64(dy)*int64(dy)))
	half := max(int64(p.width), 2*sixteenths) / 2
	if length == 0 {
		length = 1
	}
	ox, oy := Unit(half*fine*int64(dy)/length), Unit(half*fine*int64(dx)/length)
	*left = append(*left, [2]Unit{p.x + ox, p.y - oy})
	*right = append(*right, [2]Unit{p.x - ox, p.y + oy})
}

// root is the square root, rounded down.
func root(n int64) int64 { return new(big.Int).Sqrt(big.NewInt(n)).Int64() }

// smooth joins points by curves that go on in one direction at each.
func smooth(p [][2]Unit) (o outline) {
	for i := range len(p) - 1 {
		a, b, c, d := p[max(i-1, 0)], p[i], p[i+1], p[min(i+2, len(p)-1)]
		one := [2]Unit{b[0] + (c[0]-a[0])/6, b[1] + (c[1]-a[1])/6}
		two := [2]Unit{c[0] - (d[0]-b[0])/6, c[1] - (d[1]-b[1])/6}
		o = append(o, step{'C', slices.Concat(rounded(one), rounded(two), rounded(c))})
	}
	return o
}

func rounded(p [2]Unit) []Unit {
	round := func(u Unit) Unit {
		if u < 0 {
			return -((-u + sixteenths/2) / sixteenths)
		}
		return (u + sixteenths/2) / sixteenths
	}
	return []Unit{round(p[0]), round(p[1])}
}

// traced is drawn by hand: from a point along straight lines (two numbers) and
// curves (six) back to it.
func traced(x, y Unit, steps ...[]Unit) outline {
	o := outline{{'M', []Unit{x, y}}}
	for _, n := range steps {
		cmd := byte('C')
		if len(n) == 2 {
			cmd = 'L'
		}
		o = append(o, step{cmd, n})
	}
	return append(o, step{cmd: 'Z'})
}

// moved shifts an outline sideways.
func (o outline) moved(dx Unit) outline {
	return o.mapped(func(x, y Unit) (Unit, Unit) { return x + dx, y })
}

// turned turns an outline by half a turn in a field of a width.
func (o outline) turned(width Unit) outline {
	return o.mapped(func(x, y Unit) (Unit, Unit) { return width - x, -y })
}

func (o outline) mapped(f func(x, y Unit) (Unit, Unit)) outline {
	m := make(outline, len(o))
	for i, s := range o {
		m[i] = step{s.cmd, slices.Clone(s.numbers)}
		n, first := m[i].numbers, 0
		if s.cmd == 'A' {
			first = 5
		}
		for k := first; k+1 < len(n); k += 2 {
			n[k], n[k+1] = f(n[k], n[k+1])
		}
	}
	return m
}

// scaled makes an outline smaller or larger.
func (o outline) scaled(percent int) outline {
	m := o.mapped(func(x, y Unit) (Unit, Unit) { return x.Percent(percent), y.Percent(percent) })
	for i := range m {
		if m[i].cmd == 'A' {
			m[i].numbers[0], m[i].numbers[1] = m[i].numbers[0].Percent(percent), m[i].numbers[1].Percent(percent)
		}
	}
	return m
}

// relative writes an outline from its first point on in relative steps, so that
// one text serves wherever the sign stands.
func (o outline) relative() (dx, dy Unit, text Path) {
	var x, y, startX, startY Unit
	for i, s := range o {
		n := s.numbers
		switch s.cmd {
		case 'M':
			if i == 0 {
				dx, dy = n[0], n[1]
			} else {
				text.At('m', n[0]-x, n[1]-y)
			}
			x, y = n[0], n[1]
			startX, startY = x, y
		case 'L':
			text.At('l', n[0]-x, n[1]-y)
			x, y = n[0], n[1]
		case 'C':
			text.At('c', n[0]-x, n[1]-y, n[2]-x, n[3]-y, n[4]-x, n[5]-y)
			x, y = n[4], n[5]
		case 'A': // the tilt and the switches are no lengths
			text.At('a', n[0], n[1], 10*n[2], 10*n[3], 10*n[4], n[5]-x, n[6]-y)
			x, y = n[5], n[6]
		case 'Z':
			text = append(text, 'z')
			x, y = startX, startY
		}
	}
	return dx, dy, text
}
