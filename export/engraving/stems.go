package engraving

import (
	"tieover/export/engraving/canvas"
	"tieover/export/engraving/content"
	"tieover/export/engraving/pen"
	"tieover/layout/sheet"
)

// Stems without a beam: three and a half spaces, longer for several flags,
// shorter on one line and where a voice goes out of the staff.
const (
	stemOnLine  pen.Unit = 320 // on a staff of one line
	stemOutside pen.Unit = 50  // less
	flagStep    pen.Unit = 80  // from one flag to the next
	flagStem    pen.Unit = 70  // more for each further flag
)

// stems ends the stems that no beam ends, and puts all notes on the skylines.
func (l *line) stems() {
	for i := range l.spots {
		s := &l.spots[i]
		if s.Note == nil {
			continue
		}
		st := &l.Staves[s.Staff]
		if s.group < 0 && s.HasStem() {
			s.endStem(st)
		}
		l.addNote(s, st)
	}
}

func (s *spot) endStem(st *canvas.Staff) {
	length := s.Size(content.StemLength)
	if st.Lines == 1 {
		length = s.Size(stemOnLine)
	}
	length += pen.Unit(max(0, s.Flags()-1)) * s.Size(flagStem)
	if n := pen.Unit(s.Flags()); n > 0 {
		length = max(length, s.StrokeStem(content.FlagHigh+(n-1)*flagStep))
	}
	if !s.Free() && (s.Up && s.High() > 2 || !s.Up && s.Low() < -2) {
		length -= stemOutside
	}
	away := pen.Direction(s.Up)
	s.tip = s.Edge(away) + away*length
	if st.Lines == 5 && s.Free() { // a stem reaches the middle line
		s.tip = pen.Farther(away, s.tip, 0)
	}
}

// addNote puts heads, accidentals, stem and flags of a note on the skyline.
func (l *line) addNote(s *spot, st *canvas.Staff) {
	left, right := pen.Unit(0), pen.Unit(0)
	for i := range s.Pos {
		x, y, w := s.HeadX(i), s.Y(i), s.Width(i)
		left, right = min(left, x), max(right, x+w)
		what := "head"
		if s.Shared {
			what = "shared"
		}
		l.Watched(what, s.Staff, s.X+x, y-42, s.X+x+w, y+42)
		if s.Note.Heads[i].Accidental != sheet.NoSign && !s.Shared {
			a := s.AccidentalOf(i)
			x0 := s.X + s.SignX[i]
			l.Occupy("accidental", s.Staff, x0, y-a.Up, x0+a.Width, y+a.Down)
		}
	}
	st.Add(s.X+left, s.X+right, s.Top()-50, s.Bottom()+50)
	if !s.HasStem() {
		return
	}
	x := s.stemX()
	st.Add(x-20, x+20, min(s.tip, s.Top()), max(s.tip, s.Bottom()))
	if s.group < 0 && s.Flags() > 0 {
		st.Add(x, x+90, s.tip, s.tip-pen.Direction(s.Up)*200)
	}
}

// drawStem draws a stem with its flags.
func (s *spot) drawStem(p *pen.Path) {
	foot := s.Foot()
	x, y := s.stemX(), s.Y(foot)
	y += pen.Direction(s.Up) * s.Size(pen.StemInset(s.Head[foot], s.Up))
	p.Box(x-pen.StemLine/2, min(s.tip, y), x+pen.StemLine/2, max(s.tip, y))
	if s.group >= 0 {
		return
	}
	flag, step := pen.FlagUp, s.Size(flagStep)
	if s.Flags() > 1 {
		flag = pen.FlagUpShort
	}
	if !s.Up {
		flag, step = flag+pen.FlagDown-pen.FlagUp, -step
	}
	for k := range s.Flags() {
		p.Sign(flag, x-pen.StemLine/2, s.tip+pen.Unit(k)*step, s.Percent)
	}
}
