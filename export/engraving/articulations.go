package engraving

import (
	"tieover/export/engraving/canvas"
	"tieover/export/engraving/pen"
	"tieover/layout/sheet"
	"tieover/score"
)

// articulation is a sign at a note.
type articulation struct {
	touch        score.Touch
	above, below pen.Sign // the sign on each side
	height       pen.Unit
	inside       bool // it stands in the spaces of the staff if it can
}

// articulations of touches, the nearest to the head first; an accent is drawn
// for every accented note.
var articulations = []articulation{
	{score.Staccato, pen.StaccatoDot, pen.StaccatoDot, 40, true},
	{score.Tenuto, pen.TenutoLine, pen.TenutoLine, 16, true},
	{score.Marcato, pen.MarcatoUp, pen.MarcatoDown, 110, false},
	{score.Accented, pen.AccentMark, pen.AccentMark, 92, false},
}

// articulations puts the signs of touch and accent at their notes: on the side
// of the head, or outside where the voice has a side.
func (l *line) articulations() {
	for i := range l.spots {
		s := &l.spots[i]
		if s.Note == nil {
			continue
		}
		touch := s.Note.Touch
		if s.Note.Accent {
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

// above reports whether signs of a note stand above it, as those of drums do but
// where the feet have the stem down (common practice).
func (l *line) above(s *spot) bool {
	switch {
	case l.Staves[s.Staff].Lines == 1:
		return true
	case !s.Free():
		return s.Voice.Stem == sheet.StemUp
	case s.Note.Heads[0].Drum > 0:
		return true
	}
	return !s.Up
}

func (l *line) articulate(s *spot, a articulation) {
	st, above := &l.Staves[s.Staff], l.above(s)
	away, sign, x, outer := pen.Direction(above), a.below, s.Center(), -s.Low()
	if above {
		sign, outer = a.above, s.High()
	}
	stemSide := above == s.Up && s.HasStem()
	if stemSide {
		x = s.stemX()
	}
	y := st.Outside(away, x-40, x+40) + away*25
	if a.inside && !stemSide && st.Lines == 5 && outer < 3 && isClear(st, away, x, s) {
		y = away * (spaceBeyond(outer) - a.height/2)
	}
	far := y + away*a.height
	l.Occupy("articulation", s.Staff, x-50, y, x+50, far)
	st.Fills.Sign(sign, x, max(y, far), pen.FullSize)
}

// isClear reports whether nothing but the note and the staff is on a side.
func isClear(s *canvas.Staff, away, x pen.Unit, n *spot) bool {
	return away*s.Outside(away, x-40, x+40) <= max(s.Edge(), away*n.Item.Edge(away)+50)
}

// spaceBeyond is how far from the middle line the middle of the first free space
// beyond a head is.
func spaceBeyond(pos int) pen.Unit {
	q := pos + 2
	if q%2 == 0 {
		q++
	}
	return pen.Unit(q) * pen.Space / 2
}

// trill writes the sign over a note, or under a lower voice.
func (l *line) trill(s *spot) {
	if !s.Note.Touch.Has(score.Trill) {
		return
	}
	st := &l.Staves[s.Staff]
	x := s.X + s.Shift + s.Width(s.Foot())/2
	x0, x1 := pen.TrillFace.Span(x, "tr")
	y := st.Outside(pen.Upwards, x0, x1) - 40
	if s.Voice.Stem == sheet.StemDown {
		y = st.Outside(pen.Downwards, x0, x1) + 40 + pen.TrillFace.Rise()
	}
	st.Texts.Text(x, y, "tr", pen.TrillFace)
	l.Occupy("articulation", s.Staff, x0, y-pen.TrillFace.Rise(), x1, y)
}

// fermatas puts fermatas outside all that stands at their notes and rests.
func (l *line) fermatas() {
	const height pen.Unit = 118
	for i := range l.spots {
		s := &l.spots[i]
		x := s.Center()
		switch {
		case s.Note != nil && s.Note.Fermata:
		case s.Rest != nil && s.Rest.Fermata && s.Rest.Whole:
			x = s.X + pen.RestWidth(0)/2
		case s.Rest != nil && s.Rest.Fermata:
			x = s.X + pen.RestWidth(s.Rest.Value.Power)/2
		default:
			continue
		}
		st, sign, away := &l.Staves[s.Staff], pen.FermataUp, pen.Upwards
		if s.Voice.Stem == sheet.StemDown {
			sign, away = pen.FermataDown, pen.Downwards
		}
		y := pen.Farther(away, st.Outside(away, x-120, x+120), away*st.Edge()) + away*35
		far := y + away*height
		l.Occupy("fermata", s.Staff, x-120, y, x+120, far)
		st.Fills.Sign(sign, x, max(y, far), pen.FullSize)
	}
}
