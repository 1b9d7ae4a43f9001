package score

import (
	"cmp"
	"fmt"
	"iter"
	"math/big"
	"slices"

	"tieover/score/beat"
)

// Realignment is a moment at which the heads of the whole set coincide. It is
// forced if a layer of the set is cut there inside a cycle, else natural.
type Realignment struct {
	Index     int // 0 is the start of the section, if the heads coincide there; both kinds count
	Time      beat.Time
	OnBarline bool
	Apart     bool   // it comes more than a bar after the last of its kind; the start counts as both kinds
	Label     string // as printed: "B1", "B2 cut", or the plan's own mark; "" where none is: at index 0, where not Apart, and where the section stops
	Divides   bool   // a double bar comes before it, and a system may begin with it
	Cut       []int  // forced: the layers of the set that are cut there; nil: natural
	Silent    []int  // layers of the set whose head is blank there
	Cycles    []int  // for each layer of the set, the index of the cycle whose head this is
}

// Forced reports whether a cut makes the realignment.
func (r *Realignment) Forced() bool { return len(r.Cut) > 0 }

// Name is what the realignment is called: its label, or its number in words.
func (r *Realignment) Name() string { return cmp.Or(r.Label, fmt.Sprintf("realignment %d", r.Index)) }

// Together says when the section's realigning set comes together, as Meet. A
// section whose set is empty (every layer enters later, leaves, is a free line
// or starts over at realignments) never does.
func (s *Section) Together() Meeting { return s.meeting.Meeting }

// Realignments walks the section's realignments up to and including one that
// falls exactly on its end. Index 0 comes first if all heads coincide at the start.
func (s *Section) Realignments() iter.Seq[Realignment] {
	return func(yield func(Realignment) bool) {
		who := s.newCycleCounter()
		for r := range s.RealignmentTimes() {
			r.Cycles, r.Silent = who.at(r.Time)
			if !yield(r) {
				return
			}
		}
	}
}

// RealignmentTimes is Realignments without which cycles meet: Cycles and Silent stay
// nil, and nothing is walked where the meeting is arithmetic.
func (s *Section) RealignmentTimes() iter.Seq[Realignment] {
	return func(yield func(Realignment) bool) {
		if s.meeting.Start && !yield(Realignment{OnBarline: s.OnBarline(0)}) {
			return
		}
		d := divider{s: s, last: 1}
		k := 0
		for t := s.meeting.next(0); t <= s.Length; t = s.meeting.next(t) {
			k++
			r := Realignment{Index: k, Time: t, OnBarline: s.OnBarline(t), Apart: s.apart(k, t), Label: s.label(k, t)}
			r.Cut = s.meeting.cutLayers(s.meeting.cutsAt(t))
			r.Divides = d.divides(&r)
			if !yield(r) {
				return
			}
		}
	}
}

// Letter returns what the labels of the section's realignments begin with: its
// name, or a letter where it has none.
func (s *Section) Letter() string { return s.letter }

// cycleCounter follows the heads of the set to say which cycle each is in.
type cycleCounter struct {
	s     *Section
	steps []*headWalk
}

func (s *Section) newCycleCounter() *cycleCounter {
	c := &cycleCounter{s: s}
	for _, i := range s.Set {
		c.steps = append(c.steps, newHeadWalk(s, i))
	}
	return c
}

// at returns the index of the cycle whose head each layer of the set has at t,
// and the layers whose head is blank. Calls must come in time order.
func (c *cycleCounter) at(t beat.Time) (cycles, silent []int) {
	for i, w := range c.steps {
		w.to(t)
		cycles = append(cycles, w.index)
		if w.headBlank() {
			silent = append(silent, c.s.Set[i])
		}
	}
	return cycles, silent
}

// headBlank reports whether nothing is struck at the layer's head: its group is
// a rest, or its figure or box begins with one, or the cycle is silent.
func (w *headWalk) headBlank() bool {
	if w.isOver(&w.cycle) || w.rests(w.as.exception) {
		return true
	}
	attacks := w.l.build(w.as.pattern, w.as.shape).attacks
	_, struck := slices.BinarySearchFunc(attacks, w.cycle.Head, func(a raw, at beat.Time) int { return cmp.Compare(a.at, at) })
	return !struck
}

func bigTime(t beat.Time) *big.Int { return big.NewInt(int64(t)) }
