package engraving

import (
	"tieover/layout/sheet"
	"tieover/score"
)

// articulation is a sign at a note.
type articulation struct {
	touch        score.Touch
	above, below sign // the sign on each side
	height       unit
	inside       bool // it stands in the spaces of the staff if it can
}

// articulations of touches, the nearest to the head first; an accent is drawn
// for every accented note.
var articulations = []articulation{
	{score.Staccato, staccatoDot, staccatoDot, 40, true},
	{score.Tenuto, tenutoLine, tenutoLine, 16, true},
	{score.Marcato, marcatoUp, marcatoDown, 110, false},
	{score.Accented, accentMark, accentMark, 92, false},
}

// articulations puts the signs of touch and accent at their notes: on the side
// of the head, or outside where the voice has a side.
func (l *line) articulations() {
	for i := range l.spots {
		s := &l.spots[i]
		if s.note == nil {
			continue
		}
		touch := s.note.Touch
		if s.note.Accent {
			touch |= score.Accented
		}
		for _, a := range articulations {
			if touch.Has(a.touch) {
				l.articulate(s, a)
			}
		}
		l.trill(s)
	}
}

// above reports whether signs of a note stand above it.
func (l *line) above(s *spot) bool {
	switch {
	case l.staves[s.staff].lines == 1:
		return true
	case !s.free() && !s.lone:
		return s.voice.Stem == sheet.StemUp
	}
	return !s.up
}

func (l *line) articulate(s *spot, a articulation) {
	st, above := &l.staves[s.staff], l.above(s)
	away, sign, x, outer := direction(above), a.below, s.center(), -s.low()
	if above {
		sign, outer = a.above, s.high()
	}
	stemSide := above == s.up && s.hasStem()
	if stemSide {
		x = s.stemX()
	}
	y := st.outside(away, x-40, x+40) + away*25
	if a.inside && !stemSide && st.lines == 5 && outer < 3 && isClear(st, away, x, s) {
		y = away * (spaceBeyond(outer) - a.height/2)
	}
	far := y + away*a.height
	l.occupy("articulation", s.staff, x-50, y, x+50, far)
	st.fills.sign(sign, x, max(y, far), fullSize)
}

// isClear reports whether nothing but the note and the staff is on a side.
func isClear(s *lineStaff, away, x unit, n *spot) bool {
	return away*s.outside(away, x-40, x+40) <= max(s.edge(), away*n.item.edge(away)+50)
}

// spaceBeyond is how far from the middle line the middle of the first free space
// beyond a head is.
func spaceBeyond(pos int) unit {
	q := pos + 2
	if q%2 == 0 {
		q++
	}
	return unit(q) * space / 2
}

// trill writes the sign over a note, or under a lower voice.
func (l *line) trill(s *spot) {
	if !s.note.Touch.Has(score.Trill) {
		return
	}
	st := &l.staves[s.staff]
	x := s.x + s.shift + s.width(s.foot())/2
	x0, x1 := trillFace.span(x, "tr")
	y := st.outside(upwards, x0, x1) - 40
	if !s.free() && !s.lone && s.voice.Stem == sheet.StemDown {
		y = st.outside(downwards, x0, x1) + 40 + trillFace.rise()
	}
	st.texts.text(x, y, "tr", trillFace)
	l.occupy("articulation", s.staff, x0, y-trillFace.rise(), x1, y)
}

// fermatas puts fermatas outside all that stands at their notes and rests.
func (l *line) fermatas() {
	const height unit = 118
	for i := range l.spots {
		s := &l.spots[i]
		x := s.center()
		switch {
		case s.note != nil && s.note.Fermata:
		case s.rest != nil && s.rest.Fermata && s.rest.Whole:
			x = s.x + restWidth(0)/2
		case s.rest != nil && s.rest.Fermata:
			x = s.x + restWidth(s.rest.Value.Power)/2
		default:
			continue
		}
		st, sign, away := &l.staves[s.staff], fermataUp, upwards
		if s.voice.Stem == sheet.StemDown {
			sign, away = fermataDown, downwards
		}
		y := farther(away, st.outside(away, x-120, x+120), away*st.edge()) + away*35
		far := y + away*height
		l.occupy("fermata", s.staff, x-120, y, x+120, far)
		st.fills.sign(sign, x, max(y, far), fullSize)
	}
}
