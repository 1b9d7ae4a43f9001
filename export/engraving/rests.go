package engraving

import (
	"slices"

	"tieover/layout/sheet"
	"tieover/score"
)

// rests gives rests their height: in the middle, or on the side of their voice
// and out of the way of the other's heads.
func (l *line) rests() {
	for i := range l.spots {
		s := &l.spots[i]
		if s.rest == nil || s.rest.Hidden {
			continue
		}
		st := &l.staves[s.staff]
		power := s.rest.Value.Power
		if s.rest.Whole {
			power = 0
			s.x = l.middle(s.bar) - restWidth(0)/2
		}
		shape := restForms[power]
		switch {
		case s.lone || s.free():
		case s.voice.Stem == sheet.StemUp:
			s.restY = -max(2*space, -floorTo(-shape.down, space))
		default:
			s.restY = max(2*space, -floorTo(-shape.up, space))
		}
		if !s.rest.Whole {
			l.clearOfHeads(i)
		}
		y := s.restY + s.sit(st)
		up, down, w := s.size(shape.up), s.size(shape.down), s.size(shape.width)
		l.occupy("rest", s.staff, s.x, y-up, s.x+w, y+down)
	}
}

// sit moves a whole rest on a single line down to hang from it.
func (s *spot) sit(st *lineStaff) unit {
	if st.lines == 1 && (s.rest.Whole || s.rest.Value.Power == 0) {
		return space
	}
	return 0
}

// clearOfHeads moves a rest away from the heads of the other voice.
func (l *line) clearOfHeads(i int) {
	s := &l.spots[i]
	shape := restForms[s.rest.Value.Power]
	up, down := s.size(shape.up), s.size(shape.down)
	for k := l.firstOfBar(i); k < len(l.spots); k++ {
		o := &l.spots[k]
		if o.bar != s.bar || o.part != s.part {
			break
		}
		if o.note == nil || o.column != s.column || o.staff != s.staff {
			continue
		}
		air := unit(60)
		if o.voice.As != score.AsNotes { // a slash is two spaces high
			air += 50
		}
		switch {
		case s.restY < 0:
			s.restY = min(s.restY, floorTo(o.top()-down-air, space))
		case s.restY > 0:
			s.restY = max(s.restY, -floorTo(-(o.bottom()+up+air), space))
		}
	}
}

// firstOfBar returns the first spot of the bar and part of another.
func (l *line) firstOfBar(i int) int {
	for i > 0 && l.spots[i-1].bar == l.spots[i].bar && l.spots[i-1].part == l.spots[i].part {
		i--
	}
	return i
}

// floorTo rounds down to a multiple.
func floorTo(u, step unit) unit {
	n := u / step * step
	if n > u {
		n -= step
	}
	return n
}

// drawRest draws a rest with its dots.
func (l *line) drawRest(st *lineStaff, s *spot) {
	r := s.rest
	if r.Hidden {
		return
	}
	y := s.restY + s.sit(st)
	if r.Whole {
		st.fills.sign(restWhole, s.x, y, fullSize)
		l.ledger(st, s, y-space)
		return
	}
	shape := restForms[r.Value.Power]
	st.fills.sign(shape.sign, s.x, y, s.percent)
	if r.Value.Power < 2 {
		l.ledger(st, s, y-space*unit(1-r.Value.Power))
	}
	for k := range r.Value.Dots {
		st.fills.sign(augmentationDot, s.x+s.size(shape.width+14)+unit(k)*50, y-50, s.percent)
	}
}

// ledger draws the line that a whole or half rest outside the staff hangs from
// or stands on.
func (l *line) ledger(st *lineStaff, s *spot, y unit) {
	if st.lines == 5 && (y < -st.edge() || y > st.edge()) {
		st.fills.box(s.x-33, y-ledgerLine/2, s.x+147, y+ledgerLine/2)
	}
}

// silent reports whether a staff has nothing written in a bar of a part that
// has more than one.
func (l *line) silent(b int, st *lineStaff) bool {
	if l.rows[b].rest > 0 {
		return false
	}
	voices := l.rows[b].bars[st.part].Measure.Voices
	return !slices.ContainsFunc(voices, func(v sheet.Voice) bool { return v.Staff == st.number })
}
