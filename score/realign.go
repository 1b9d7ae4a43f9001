package score

import (
	"cmp"
	"iter"
	"math/big"
	"slices"
	"strconv"

	"tieover/score/beat"
)

// meetings answers questions about the section's realignments.
type meetings struct{ m *meeting }

func (s *Section) newMeetings() *meetings { return &meetings{s.meeting} }

// upTo returns how many realignments, the start not counted, there are up to
// and including t.
func (m *meetings) upTo(t beat.Time) (n int, any bool) {
	if m.m == nil || t <= 0 {
		return 0, false
	}
	n = m.m.count(t)
	return n, n > 0
}

// after returns the first realignment after t, the start not counted.
func (m *meetings) after(t beat.Time) beat.Time {
	if m.m == nil {
		return never
	}
	return m.m.next(max(t, 0))
}

// Together says when the section's realigning set comes together, as Meet.
// A section whose set is empty (every layer enters later or is cut) never does.
func (s *Section) Together() Meeting {
	if s.meeting == nil {
		return Meeting{Never: true, A: -1, B: -1}
	}
	return s.meeting.answer()
}

// Realignments walks the section's realignments up to and including one that
// falls exactly on its end. Index 0 comes first if all heads stand at the start.
func (s *Section) Realignments() iter.Seq[Realignment] {
	return func(yield func(Realignment) bool) {
		if s.meeting == nil {
			return
		}
		who := s.newCycleCounter()
		if s.meeting.Start && !yield(s.realignment(0, 0, who)) {
			return
		}
		k := 0
		for t := s.meeting.next(0); t <= s.Length; t = s.meeting.next(t) {
			k++
			if !yield(s.realignment(k, t, who)) {
				return
			}
		}
	}
}

// RealignmentTimes is Realignments without which cycles meet: Cycles and Silent stay
// nil, and nothing is walked where the meeting is arithmetic.
func (s *Section) RealignmentTimes() iter.Seq[Realignment] {
	return func(yield func(Realignment) bool) {
		if s.meeting == nil {
			return
		}
		if s.meeting.Start && !yield(s.moment(0, 0)) {
			return
		}
		k := 0
		for t := s.meeting.next(0); t <= s.Length; t = s.meeting.next(t) {
			k++
			if !yield(s.moment(k, t)) {
				return
			}
		}
	}
}

func (s *Section) moment(k int, t beat.Time) Realignment {
	r := Realignment{Index: k, Time: t, OnBarline: s.OnBarline(t)}
	if k > 0 {
		r.Label = s.labelAt(k, t)
	}
	return r
}

func (s *Section) realignment(k int, t beat.Time, who *cycleCounter) Realignment {
	r := s.moment(k, t)
	r.Cycles, r.Silent = who.at(t)
	return r
}

// Letter returns what the labels of the section's realignments begin with: its
// name, or a letter where it has none.
func (s *Section) Letter() string { return s.letter }

// labelAt returns the label of realignment k (from 1) at t: the plan's mark
// where it has one, else the section's letter and the count, or "" when the
// section's realignments are not marked.
func (s *Section) labelAt(k int, t beat.Time) string {
	for e := range s.planned(t) {
		if e.Mark != "" {
			return e.Mark
		}
	}
	if !s.Marked() {
		return ""
	}
	return s.letter + strconv.Itoa(k)
}

// Marked reports whether realignments are worth a mark. A single layer that
// meets the barline with every bar would carry one at each; it has none.
func (s *Section) Marked() bool {
	if s.meeting == nil || s.meeting.First == nil {
		return false
	}
	alone := len(s.Set) == 1 && s.WithBarline
	return !alone || !s.meetsEveryBar()
}

// meetsEveryBar reports whether a set with the barline in it comes together at
// every barline of its period. Where cycles or bars change there is no period,
// and coming together after the first bar already counts as every bar.
func (s *Section) meetsEveryBar() bool {
	m := s.meeting
	if m.Walked {
		return m.next(0) <= s.barring.bar(1).Length
	}
	run := s.barring.runs[0]
	return m.period > 0 && len(m.residues) == int(m.period/run.rotation())*len(run.ends)
}

// cycleCounter follows the heads of the set to say which cycle each is in.
type cycleCounter struct {
	s     *Section
	steps []*headWalk
}

func (s *Section) newCycleCounter() *cycleCounter {
	c := &cycleCounter{s: s}
	for _, i := range s.Set {
		c.steps = append(c.steps, newHeadWalk(s.Layers[i]))
	}
	return c
}

// at returns the index of the cycle whose head each layer of the set has at t,
// and the layers whose head is blank. Calls must come in time order.
func (c *cycleCounter) at(t beat.Time) (cycles, silent []int) {
	for i, w := range c.steps {
		for w.head < t && !w.over {
			w.step()
		}
		cycles = append(cycles, w.index)
		w.realigned(t) // the cycle that begins here is a first one
		if w.headBlank() {
			silent = append(silent, c.s.Set[i])
		}
	}
	return cycles, silent
}

// headBlank reports whether nothing is struck at the layer's head: its group is
// a rest, or its figure or box begins with one, or the cycle is silent.
func (w *headWalk) headBlank() bool {
	if w.over || w.except != nil && w.except.Rest {
		return true
	}
	attacks := w.l.build(w.pattern, w.shape).attacks
	_, struck := slices.BinarySearchFunc(attacks, w.head-w.start, func(a raw, at beat.Time) int { return cmp.Compare(a.at, at) })
	return !struck
}

func bigTime(t beat.Time) *big.Int { return big.NewInt(int64(t)) }
