package score

import (
	"cmp"
	"slices"

	"tieover/score/beat"
)

// Speed is how fast the music goes from a moment on.
type Speed struct {
	Time     beat.Time
	Quarters beat.Span // a minute
}

// Speeds lists all speeds of the section in order, the first at its opening: those of
// the steady tempo marks, the steps of the gradual ones, and those of beats that a
// fermata holds. A gradual tempo is a straight line from the tempo before to the one
// at its end; each beat has the speed of its middle. Callers must not change them.
func (s *Section) Speeds() []Speed { return s.speeds }

// Fastest returns the fastest of them, in quarters a minute.
func (s *Section) Fastest() beat.Span {
	var fastest beat.Span
	for _, v := range s.speeds {
		if v.Quarters.Cmp(fastest) > 0 {
			fastest = v.Quarters
		}
	}
	return fastest
}

// mostSteps bounds the beats of one gradual tempo.
const mostSteps = 4096

func (st *settler) speeds() {
	s := st.s
	s.speeds = nil
	now := s.Tempo.Quarters
	for i := range s.tempi {
		m := &s.tempi[i]
		if m.Tempo.IsGradual() {
			next := beat.Time(never)
			if i+1 < len(s.tempi) {
				next = s.tempi[i+1].Time
			}
			if !st.steps(m, now, next) {
				return
			}
		} else {
			s.speed(Speed{m.Time, m.Tempo.Quarters})
		}
		for _, v := range m.Steps {
			s.speed(v)
		}
		now = m.Tempo.Quarters
	}
	st.holds()
}

// holds doubles the length of the beat of each fermata. What comes before the fermata
// keeps its time; the rest of the beat takes all of the added time.
func (st *settler) holds() {
	s := st.s
	held := s.Opening() // up to here
	for i := range s.Plan {
		e := &s.Plan[i]
		switch {
		case !e.Fermata:
			continue
		case e.Time >= s.Length && !s.BarAt(e.Time).Landing:
			st.fail(e.At.Pos, "name the last beat", "the fermata stands behind the last bar")
			return
		case e.Time < held:
			continue
		}
		from, to := s.beatAt(e.Time)
		held = to
		slower := beat.Of(int64(to-e.Time), int64(to-e.Time+to-from))
		s.split(e.Time)
		if to < s.Extent() {
			s.split(to)
		}
		for k := range s.speeds {
			v := &s.speeds[k]
			if v.Time < e.Time || v.Time >= to {
				continue
			}
			if v.Quarters = v.Quarters.Mul(slower); v.Quarters.Cmp(beat.Of(4, 1)) < 0 || !simple(v.Quarters) {
				st.fail(e.At.Pos, "hold a beat of a faster tempo, or an earlier moment of the beat", "the fermata makes the tempo %v quarters a minute; the slowest is 4", v.Quarters)
				return
			}
		}
	}
}

// split lets a speed begin at a moment, the one that holds there if none does.
func (s *Section) split(at beat.Time) {
	i, found := slices.BinarySearchFunc(s.speeds, at, func(v Speed, t beat.Time) int { return cmp.Compare(v.Time, t) })
	if !found {
		s.speeds = slices.Insert(s.speeds, i, Speed{at, s.speeds[i-1].Quarters})
	}
}

// speed adds a speed, in place of one at the same moment.
func (s *Section) speed(v Speed) {
	if last := len(s.speeds) - 1; last >= 0 && s.speeds[last].Time == v.Time {
		s.speeds = s.speeds[:last]
	}
	s.speeds = append(s.speeds, v)
}

// steps works out the speeds of a gradual tempo; next is when another mark comes.
func (st *settler) steps(m *TempoAt, from beat.Span, next beat.Time) bool {
	s := st.s
	rise := m.Tempo.Quarters.Sub(from)
	for at := m.Time; at < m.Until; {
		_, end := s.beatAt(at)
		end = min(end, m.Until)
		way := beat.Of(int64(at-m.Time+end-m.Time), 2*int64(m.Until-m.Time)) // of the beat's middle
		quarters := from.Add(rise.Mul(way))
		if len(m.Steps) == mostSteps {
			st.fail(m.Tempo.Pos, "let it end sooner", "the %s goes on for more than 4,096 beats", m.Tempo.Words)
			return false
		}
		if !simple(quarters) {
			st.fail(m.Tempo.Pos, "begin and end it on a beat, between tempos that are whole numbers", "the steps of the %s are no simple fractions", m.Tempo.Words)
			return false
		}
		m.Steps = append(m.Steps, Speed{at, quarters})
		at = end
	}
	if m.Until < min(next, s.Extent()) {
		m.Steps = append(m.Steps, Speed{m.Until, m.Tempo.Quarters})
	}
	return true
}

// beatAt returns the beginning and the end of the beat that a moment falls in.
func (s *Section) beatAt(t beat.Time) (from, to beat.Time) {
	bar := s.BarAt(t)
	beats := s.beatTimes(bar)
	if i := slices.IndexFunc(beats, func(b beat.Time) bool { return b > t }); i > 0 {
		return beats[i-1], beats[i]
	}
	return beats[len(beats)-1], bar.End()
}
