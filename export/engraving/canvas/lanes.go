package canvas

import (
	"cmp"
	"slices"

	"tieover/export/engraving/pen"
)

// Hung is a sign that hangs outside a staff, at one height with others of its
// kind.
type Hung struct {
	X0, X1   pen.Unit
	Up, Down pen.Unit // how far it reaches from its foot
	Slack    pen.Unit // how much of its ends may meet a neighbor that has as much
	Draw     func(y pen.Unit)
}

// Lane is a kind of height at which signs hang. On each side they follow one
// another outwards in this order.
type Lane int

// The lanes, from the inside outwards.
const (
	SizeLane    Lane = iota // of groups
	CycleLane               // brackets and numbers
	DynamicLane             // below
	ChordLane
	WordLane
	BoxLane
	TopLane // rehearsal marks and tempi
	laneCount
)

// lanePads is how far each lane keeps from what is inside it.
var lanePads = [laneCount]pen.Unit{30, 45, 50, 50, 50, 50, 60}

// sideAir is what signs keep clear at their sides.
const sideAir pen.Unit = 25

// Hanging is all that hangs at one staff.
type Hanging [laneCount]struct{ above, below []Hung }

// Add hangs a sign in a lane on one side.
func (h *Hanging) Add(k Lane, away pen.Unit, s Hung) {
	if away == pen.Upwards {
		h[k].above = append(h[k].above, s)
	} else {
		h[k].below = append(h[k].below, s)
	}
}

// Hang draws what hangs at a staff, from the inside outwards.
func (c *Canvas) Hang(i int, h *Hanging) {
	for k := range h {
		c.HangLane(i, Lane(k), pen.Upwards, h[k].above)
		c.HangLane(i, Lane(k), pen.Downwards, h[k].below)
	}
}

// HangLane hangs signs at one height outside all that is there; those that meet
// sideways take a further height.
func (c *Canvas) HangLane(i int, k Lane, away pen.Unit, signs []Hung) {
	st := &c.Staves[i]
	slices.SortStableFunc(signs, func(a, b Hung) int { return cmp.Compare(a.X0, b.X0) })
	for len(signs) > 0 {
		var now, later []Hung
		end, slack, y := pen.Nowhere, pen.Unit(0), away*pen.Nowhere
		for _, s := range signs {
			if s.X0 < end-min(slack, s.Slack) {
				later = append(later, s)
				continue
			}
			now, end, slack = append(now, s), s.X1+20, s.Slack
			inner := s.Up // what it reaches towards the staff
			if away == pen.Upwards {
				inner = s.Down
			}
			y = pen.Farther(away, y, st.Outside(away, s.X0-sideAir, s.X1+sideAir)+away*(lanePads[k]+inner))
		}
		for _, s := range now {
			s.Draw(y)
			st.Add(s.X0, s.X1, y-s.Up, y+s.Down)
			c.Watched("mark", i, s.X0+s.Slack, y-s.Up, s.X1-s.Slack, y+s.Down)
		}
		signs = later
	}
}

// Words are a text that hangs; it never runs over the line's end.
func (c *Canvas) Words(i int, x pen.Unit, s string, f pen.Face) Hung {
	f = f.Within(c.limit-20, s)
	x0, x1 := f.Span(x, s)
	if over := x1 - c.limit; over > 0 && f.Anchor != pen.AtEnd {
		x, x0, x1 = x-over, x0-over, x1-over
	}
	return Hung{X0: x0, X1: x1, Up: f.Rise(), Down: f.Sink(), Draw: func(y pen.Unit) {
		c.Staves[i].Texts.Text(x, y, s, f)
		c.Label(i, x0, y-f.Rise(), x1, y+f.Sink())
	}}
}

// Label keeps barlines off a text between two staves.
func (c *Canvas) Label(i int, x0, y0, x1, y1 pen.Unit) {
	c.Labels = append(c.Labels, Box{"label", i, x0, y0, x1, y1})
}

// BoxPad is what a box keeps clear around its text.
const BoxPad pen.Unit = 40

// BoxedWords are a text in a box.
func (c *Canvas) BoxedWords(i int, x pen.Unit, s string, f pen.Face) Hung {
	f = f.Within(c.limit-2*BoxPad-20, s)
	w := f.Width(s) + 2*BoxPad
	x = max(0, min(x, c.limit-w))
	h := Hung{X0: x, X1: x + w, Up: f.Rise() + BoxPad, Down: f.Sink() + BoxPad - 20}
	h.Draw = func(y pen.Unit) {
		st := &c.Staves[i]
		st.Texts.Text(x+BoxPad, y, s, f)
		st.Strokes.At('M', x, y-h.Up)
		st.Strokes.At('H', x+w)
		st.Strokes.At('V', y+h.Down)
		st.Strokes.At('H', x)
		st.Strokes = append(st.Strokes, 'z')
		c.Label(i, x, y-h.Up, x+w, y+h.Down)
	}
	return h
}
