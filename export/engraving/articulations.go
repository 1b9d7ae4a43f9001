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
	x := s.x + s.shift + s.size(59)
	stemSide := above == s.up && s.hasStem()
	if stemSide {
		x = s.stemX()
	}
	inside := a.inside && !stemSide && st.lines == 5 && st.isClear(above, x, s)
	if above {
		y := st.top(x-40, x+40) - 25
		if inside && s.high() < 3 {
			y = spaceBeyond(s.high()) + a.height/2
		}
		st.add(x-50, x+50, y-a.height, y)
		st.fills.sign(a.above, x, y, fullSize)
		l.watched("articulation", s.staff, x-50, y-a.height, x+50, y)
		return
	}
	y := st.bottom(x-40, x+40) + 25
	if inside && s.low() > -3 {
		y = -spaceBeyond(-s.low()) - a.height/2
	}
	st.add(x-50, x+50, y, y+a.height)
	st.fills.sign(a.below, x, y+a.height, fullSize)
	l.watched("articulation", s.staff, x-50, y, x+50, y+a.height)
}

// isClear reports whether nothing but the note and the staff is on that side.
func (s *lineStaff) isClear(above bool, x unit, n *spot) bool {
	if above {
		return s.top(x-40, x+40) >= min(-s.edge(), n.top()-50)
	}
	return s.bottom(x-40, x+40) <= max(s.edge(), n.bottom()+50)
}

// spaceBeyond is the middle of the first free space above a head.
func spaceBeyond(pos int) unit {
	q := pos + 2
	if q%2 == 0 {
		q++
	}
	return -unit(q) * space / 2
}
