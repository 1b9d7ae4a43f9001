package engraving

import "tieover/layout/sheet"

// fermatas puts fermatas outside all that stands at their notes and rests.
func (l *line) fermatas() {
	const height unit = 118
	for i := range l.spots {
		s := &l.spots[i]
		x := s.x + s.shift + s.size(59)
		switch {
		case s.note != nil && s.note.Fermata:
		case s.rest != nil && s.rest.Fermata && s.rest.Whole:
			x = s.x + restWidth(0)/2
		case s.rest != nil && s.rest.Fermata:
			x = s.x + restWidth(s.rest.Value.Power)/2
		default:
			continue
		}
		st := &l.staves[s.staff]
		up, y := fermataUp, min(st.top(x-120, x+120), -st.edge())-35
		if s.voice.Stem == sheet.StemDown {
			up, y = fermataDown, max(st.bottom(x-120, x+120), st.edge())+35+height
		}
		st.add(x-120, x+120, y-height, y)
		st.fills.sign(up, x, y, fullSize)
		l.watched("fermata", s.staff, x-120, y-height, x+120, y)
	}
}
