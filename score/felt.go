package score

import "tieover/score/beat"

// Felt returns the section in the bars of a listener who takes a moment for a
// downbeat, which may lie in the pickup: bar 1 begins there, also where the piece
// has bars before the section; those before it are 0, -1 …, and the section may begin
// inside the first of them. What is played stays the same, and so do realignments and
// their labels: cuts and exceptions fall in the bars that are written. The last bar is
// filled. ok is false where bars differ in length, so that no listener could go on
// counting, and for a downbeat that is not in the section.
func (s *Section) Felt(downbeat beat.Time) (felt *Section, ok bool) {
	from := s.Opening()
	if downbeat < from || downbeat >= s.Length || !s.Steady() {
		return nil, false
	}
	c := *s
	c.written = s.asWritten()
	bar := c.written.barring.longest
	before := (downbeat - from + bar - 1) / bar
	c.FirstBar = 1 - int(before)
	c.barring = barring{}
	c.barring.change(s.Grid, downbeat-before*bar, 1, s.Meter)
	return &c, true
}

// Barred returns the section in the bars of one meter from its start on, to its end and
// beyond: no pickup, no plan and no short last bar. It is for counting, not to be
// written.
func (s *Section) Barred(m Meter) *Section {
	c := *s
	c.Meter, c.Plan, c.Pickup, c.End, c.Last = m, nil, beat.Span{}, Stop, true
	c.barring = barring{}
	c.barring.change(s.Grid, 0, 1, m)
	return &c
}

// asWritten is the section as the spec bars it.
func (s *Section) asWritten() *Section {
	if s.written != nil {
		return s.written
	}
	return s
}

// Steady reports whether all bars of the section's meter are alike.
func (s *Section) Steady() bool { return len(s.asWritten().barring.runs) == 1 && len(s.Meter) == 1 }
