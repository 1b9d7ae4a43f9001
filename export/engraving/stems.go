package engraving

import "tieover/layout/sheet"

// Stems without a beam: three and a half spaces, longer for several flags,
// shorter on one line and where a voice goes out of the staff.
const (
	stemOnLine  unit = 320 // on a staff of one line
	stemOutside unit = 50  // less
	flagStep    unit = 80  // from one flag to the next
	flagStem    unit = 70  // more for each further flag
)

// stems ends the stems that no beam ends, and puts all notes on the skylines.
func (l *line) stems() {
	for i := range l.spots {
		s := &l.spots[i]
		if s.note == nil {
			continue
		}
		st := &l.staves[s.staff]
		if s.group < 0 && s.hasStem() {
			s.endStem(st)
		}
		l.addNote(s, st)
	}
}

func (s *spot) endStem(st *lineStaff) {
	length := s.size(stemLength)
	if st.lines == 1 {
		length = s.size(stemOnLine)
	}
	length += unit(max(0, s.flags()-1)) * s.size(flagStem)
	if n := unit(s.flags()); n > 0 {
		length = max(length, s.strokeStem(flagHigh+(n-1)*flagStep))
	}
	if !s.free() && (s.up && s.high() > 2 || !s.up && s.low() < -2) {
		length -= stemOutside
	}
	away := direction(s.up)
	s.tip = s.edge(away) + away*length
	if st.lines == 5 && s.free() { // a stem reaches the middle line
		s.tip = farther(away, s.tip, 0)
	}
}

// addNote puts heads, accidentals, stem and flags of a note on the skyline.
func (l *line) addNote(s *spot, st *lineStaff) {
	left, right := unit(0), unit(0)
	for i := range s.pos {
		x, y, w := s.headX(i), s.y(i), s.width(i)
		left, right = min(left, x), max(right, x+w)
		what := "head"
		if s.shared {
			what = "shared"
		}
		l.watched(what, s.staff, s.x+x, y-42, s.x+x+w, y+42)
		if s.note.Heads[i].Accidental != sheet.NoSign && !s.shared {
			a := s.accidentalOf(i)
			x0 := s.x + s.signX[i]
			l.occupy("accidental", s.staff, x0, y-a.up, x0+a.width, y+a.down)
		}
	}
	st.add(s.x+left, s.x+right, s.top()-50, s.bottom()+50)
	if !s.hasStem() {
		return
	}
	x := s.stemX()
	st.add(x-20, x+20, min(s.tip, s.top()), max(s.tip, s.bottom()))
	if s.group < 0 && s.flags() > 0 {
		st.add(x, x+90, s.tip, s.tip-direction(s.up)*200)
	}
}

// drawStem draws a stem with its flags.
func (s *spot) drawStem(p *path) {
	foot := s.foot()
	x, y := s.stemX(), s.y(foot)
	y += direction(s.up) * s.size(stemInset(s.head[foot], s.up))
	p.box(x-stemLine/2, min(s.tip, y), x+stemLine/2, max(s.tip, y))
	if s.group >= 0 {
		return
	}
	flag, step := flagUp, s.size(flagStep)
	if s.flags() > 1 {
		flag = flagUpShort
	}
	if !s.up {
		flag, step = flag+flagDown-flagUp, -step
	}
	for k := range s.flags() {
		p.sign(flag, x-stemLine/2, s.tip+unit(k)*step, s.percent)
	}
}
