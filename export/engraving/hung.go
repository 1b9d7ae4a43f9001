package engraving

import (
	"cmp"
	"slices"
)

// hung is a sign that hangs outside a staff, at one height with others of its
// kind.
type hung struct {
	x0, x1   unit
	up, down unit // how far it reaches from its foot
	slack    unit // how much of its ends may meet a neighbor that has as much
	draw     func(y unit)
}

// lane is a kind of height at which signs hang. On each side they follow one
// another outwards in this order.
type lane int

const (
	sizeLane    lane = iota // of groups
	cycleLane               // brackets and numbers
	dynamicLane             // below
	chordLane
	wordLane
	boxLane
	topLane // rehearsal marks and tempi
	laneCount
)

// lanePads is how far each lane keeps from what is inside it.
var lanePads = [laneCount]unit{30, 45, 50, 50, 50, 50, 60}

// sideAir is what signs keep clear at their sides.
const sideAir unit = 25

// hanging is all that hangs at one staff.
type hanging [laneCount]struct{ above, below []hung }

func (h *hanging) add(k lane, away unit, s hung) {
	if away == upwards {
		h[k].above = append(h[k].above, s)
	} else {
		h[k].below = append(h[k].below, s)
	}
}

// hang draws what hangs at a staff, from the inside outwards.
func (l *canvas) hang(i int, h *hanging) {
	for k := range h {
		l.hangLane(i, upwards, lanePads[k], h[k].above)
		l.hangLane(i, downwards, lanePads[k], h[k].below)
	}
}

// hangLane hangs signs at one height outside all that is there; those that meet
// sideways take a further height.
func (l *canvas) hangLane(i int, away, pad unit, signs []hung) {
	st := &l.staves[i]
	slices.SortStableFunc(signs, func(a, b hung) int { return cmp.Compare(a.x0, b.x0) })
	for len(signs) > 0 {
		var now, later []hung
		end, slack, y := nowhere, unit(0), away*nowhere
		for _, s := range signs {
			if s.x0 < end-min(slack, s.slack) {
				later = append(later, s)
				continue
			}
			now, end, slack = append(now, s), s.x1+20, s.slack
			inner := s.up // what it reaches towards the staff
			if away == upwards {
				inner = s.down
			}
			y = farther(away, y, st.outside(away, s.x0-sideAir, s.x1+sideAir)+away*(pad+inner))
		}
		for _, s := range now {
			s.draw(y)
			st.add(s.x0, s.x1, y-s.up, y+s.down)
			l.watched("mark", i, s.x0+s.slack, y-s.up, s.x1-s.slack, y+s.down)
		}
		signs = later
	}
}

// words are a text that hangs; it never runs over the line's end.
func (l *canvas) words(i int, x unit, s string, f face) hung {
	f = f.within(l.limit-20, s)
	x0, x1 := f.span(x, s)
	if over := x1 - l.limit; over > 0 && f.anchor != atEnd {
		x, x0, x1 = x-over, x0-over, x1-over
	}
	return hung{x0: x0, x1: x1, up: f.rise(), down: f.sink(), draw: func(y unit) {
		l.staves[i].texts.text(x, y, s, f)
		l.label(i, x0, y-f.rise(), x1, y+f.sink())
	}}
}

// label keeps barlines off a text between two staves.
func (l *canvas) label(i int, x0, y0, x1, y1 unit) {
	l.labels = append(l.labels, box{"label", i, x0, y0, x1, y1})
}

const boxPad unit = 40

// boxedWords are a text in a box.
func (l *canvas) boxedWords(i int, x unit, s string, f face) hung {
	f = f.within(l.limit-2*boxPad-20, s)
	w := f.width(s) + 2*boxPad
	x = max(0, min(x, l.limit-w))
	h := hung{x0: x, x1: x + w, up: f.rise() + boxPad, down: f.sink() + boxPad - 20}
	h.draw = func(y unit) {
		st := &l.staves[i]
		st.texts.text(x+boxPad, y, s, f)
		st.strokes.at('M', x, y-h.up)
		st.strokes.at('H', x+w)
		st.strokes.at('V', y+h.down)
		st.strokes.at('H', x)
		st.strokes = append(st.strokes, 'z')
		l.label(i, x, y-h.up, x+w, y+h.down)
	}
	return h
}
