package engraving

import (
	"slices"

	"tieover/export/engraving/canvas"
	"tieover/export/engraving/content"
	"tieover/export/engraving/pen"
	"tieover/layout/sheet"
	"tieover/score"
)

// rests gives rests their height: in the middle, or on the side of their voice
// and out of the way of the other's heads.
func (l *line) rests() {
	for i := range l.spots {
		s := &l.spots[i]
		if s.Rest == nil || s.Rest.Hidden {
			continue
		}
		st := &l.Staves[s.Staff]
		power := s.Rest.Value.Power
		if s.Rest.Whole {
			power = 0
			s.X = l.Middle(s.Bar) - pen.RestWidth(0)/2
		}
		shape := pen.RestForms[power]
		switch {
		case s.Lone || s.Free():
		case s.Voice.Stem == sheet.StemUp:
			s.restY = -max(2*pen.Space, -floorTo(-shape.Down, pen.Space))
		default:
			s.restY = max(2*pen.Space, -floorTo(-shape.Up, pen.Space))
		}
		l.clearOfHeads(i)
		y := s.restY + s.sit(st)
		up, down, w := s.Size(shape.Up), s.Size(shape.Down), s.Size(shape.Width)
		l.Occupy("rest", s.Staff, s.X, y-up, s.X+w, y+down)
	}
}

// sit moves a whole rest on a single line down to hang from it.
func (s *spot) sit(st *canvas.Staff) pen.Unit {
	if st.Lines == 1 && (s.Rest.Whole || s.Rest.Value.Power == 0) {
		return pen.Space
	}
	return 0
}

// clearOfHeads moves a rest away from the heads of the other voice, and from the dots
// and ties of what sounds on there. The rest of a whole bar is wherever the bar's middle
// is.
func (l *line) clearOfHeads(i int) {
	s := &l.spots[i]
	shape := pen.RestForms[s.Rest.Value.Power]
	up, down := s.Size(shape.Up), s.Size(shape.Down)
	for k := l.firstOfBar(i); k < len(l.spots); k++ {
		o := &l.spots[k]
		if o.Bar != s.Bar || o.Part != s.Part {
			break
		}
		if o.Note == nil || o.Staff != s.Staff || !o.isAt(s) {
			continue
		}
		air := pen.Unit(60)
		if o.Voice.As != score.AsNotes { // a slash is two spaces high
			air += 50
		} else if o.Column == s.Column && slices.ContainsFunc(o.Note.Heads, func(h sheet.Head) bool { return h.Ghost }) {
			air += 30 // parentheses reach beyond their head
		}
		switch {
		case s.restY < 0:
			s.restY = min(s.restY, floorTo(o.Top()-down-air, pen.Space))
		case s.restY > 0:
			s.restY = max(s.restY, -floorTo(-(o.Bottom()+up+air), pen.Space))
		}
	}
}

// isAt reports whether a note would meet a rest of its height.
func (s *spot) isAt(rest *spot) bool {
	if !rest.Rest.Whole {
		return s.Column == rest.Column || s.runsPast(rest)
	}
	const air = 60
	right := s.X + s.Width(0)
	if dots := s.Note.Value.Dots; dots > 0 {
		right = s.X + s.DotX + pen.Unit(dots)*content.DotStep
	}
	return s.X-air < rest.X+pen.RestWidth(0) && right+air > rest.X
}

// runsPast reports whether a dotted or tied note sounds on where another sign stands.
func (s *spot) runsPast(other *spot) bool {
	at, from := other.Event.At(), s.Event.At()
	return (s.Note.TieOut || s.Note.Value.Dots > 0) && s.Voice != other.Voice && from < at && at < from+s.Event.Span()
}

// firstOfBar returns the first spot of the bar and part of another.
func (l *line) firstOfBar(i int) int {
	for i > 0 && l.spots[i-1].Bar == l.spots[i].Bar && l.spots[i-1].Part == l.spots[i].Part {
		i--
	}
	return i
}

// floorTo rounds down to a multiple.
func floorTo(u, step pen.Unit) pen.Unit {
	n := u / step * step
	if n > u {
		n -= step
	}
	return n
}

// drawRest draws a rest with its dots.
func (l *line) drawRest(st *canvas.Staff, s *spot) {
	r := s.Rest
	if r.Hidden {
		return
	}
	y := s.restY + s.sit(st)
	if r.Whole {
		st.Fills.Sign(pen.RestWhole, s.X, y, pen.FullSize)
		l.ledger(st, s, y-pen.Space)
		return
	}
	shape := pen.RestForms[r.Value.Power]
	st.Fills.Sign(shape.Sign, s.X, y, s.Percent)
	if r.Value.Power < 2 {
		l.ledger(st, s, y-pen.Space*pen.Unit(1-r.Value.Power))
	}
	for k := range r.Value.Dots {
		st.Fills.Sign(pen.AugmentationDot, s.X+s.Size(shape.Width+14)+pen.Unit(k)*50, y-50, s.Percent)
	}
}

// ledger draws the line that a whole or half rest outside the staff hangs from
// or stands on.
func (l *line) ledger(st *canvas.Staff, s *spot, y pen.Unit) {
	if st.Lines == 5 && (y < -st.Edge() || y > st.Edge()) {
		st.Fills.Box(s.X-33, y-pen.LedgerLine/2, s.X+147, y+pen.LedgerLine/2)
	}
}

// silent reports whether a staff has nothing written in a bar of a part that
// has more than one.
func (l *line) silent(b int, st *canvas.Staff) bool {
	if l.Rows[b].Rest > 0 {
		return false
	}
	voices := l.Rows[b].Bars[st.Part].Measure.Voices
	return !slices.ContainsFunc(voices, func(v sheet.Voice) bool { return v.Staff == st.Number })
}
