package score

import "tieover/score/beat"

// tempos lists the tempo marks. An equation takes the tempo before it: the new
// quarter tempo is the old one times new value over old value.
func (st *settler) tempos() {
	s := st.s
	if s.Tempo.Old != nil && !st.pivot() {
		return
	}
	s.tempi = []tempoChange{{0, s.Tempo}}
	for i := range s.Plan {
		e := &s.Plan[i]
		if e.Tempo == nil {
			continue
		}
		t := *e.Tempo
		if t.Old != nil {
			t.follow(s.tempi[len(s.tempi)-1].tempo, s.barring.at(e.Time).Signature)
			*e.Tempo = t
		}
		if t.Quarters.Cmp(beat.Of(4, 1)) < 0 || t.Quarters.Cmp(beat.Of(2000, 1)) > 0 {
			st.fail(t.Pos, "stay between 4 and 2,000 quarters a minute", "the tempo here is %v quarters a minute", t.Quarters)
		}
		if last := len(s.tempi) - 1; s.tempi[last].at == e.Time {
			s.tempi = s.tempi[:last]
		}
		s.tempi = append(s.tempi, tempoChange{e.Time, t})
	}
}

// pivot takes the tempo of the section's start from the end of the section
// before it.
func (st *settler) pivot() bool {
	s := st.s
	for i, other := range st.piece.Sections {
		if other == s && i > 0 {
			before := st.piece.Sections[i-1].tempi
			if len(before) > 0 {
				s.Tempo.follow(before[len(before)-1].tempo, s.barring.at(0).Signature)
				return true
			}
		}
	}
	st.fail(s.Tempo.Pos, "give it as a number, such as tempo: 120", "an equation needs a tempo before it, and this is the start of the piece")
	return false
}

// follow computes an equation's tempo from the one before; it is counted in the
// beat of the meter then in force, in quarters where the beats are unequal.
func (t *Tempo) follow(before Tempo, meter Signature) {
	t.Quarters = before.Quarters.Mul(t.New.Span()).Over(t.Old.Span())
	t.Beat = meter.Beats()[0]
	for _, b := range meter.Beats() {
		if b.Cmp(t.Beat) != 0 {
			t.Beat = beat.Of(1, 4)
			break
		}
	}
	t.Rate = t.Quarters.Over(t.Beat.Over(beat.Of(1, 4)))
}
