package score

import (
	"fmt"
	"slices"
	"strings"

	"tieover/score/beat"
)

// rests warns where the section's end leaves a bar unfilled, and refuses a
// short bar that no signature can state.
func (st *settler) rests() {
	s := st.s
	last := s.barring.at(s.Length)
	rest := s.Length - last.Start
	if rest == 0 {
		return
	}
	left := s.Grid.Span(rest)
	if s.fillsLastBar() {
		st.warn(s.LengthRule.Pos, "", "the section ends inside bar %d, after %v of it; rests fill the bar", s.FirstBar+last.N-1, left)
		return
	}
	if _, _, ok := beat.NoteValue(beat.Of(1, left.Den())); !ok {
		next := "another follows"
		if s.Last {
			next = "is repeated"
		}
		st.fail(s.LengthRule.Pos, "let the section end on a barline, say with \"length: … bars\"",
			"the section ends inside bar %d, after %v of it, and %s: no time signature can state so short a bar", s.FirstBar+last.N-1, left, next)
	}
}

// warnOfCuts warns once that cut layers count for realignments, where something is
// timed by these: in specs of the first version they did not count.
func (st *settler) warnOfCuts() {
	s := st.s
	cut := s.cutSet()
	if s.SetNames != nil || len(cut) == 0 || len(cut) == len(s.Set) || !s.waits() {
		return
	}
	var others []string
	for _, i := range s.Set {
		if s.Layers[i].Loop == Run {
			others = append(others, s.Layers[i].Name)
		}
	}
	st.warn(s.Layers[cut[0]].Pos, "", "cut layers now count for realignments; realign: [%s] leaves them out", strings.Join(others, ", "))
}

// waits reports whether something in the section is timed by realignments.
func (s *Section) waits() bool {
	return s.LengthRule.Kind == Realignments ||
		slices.ContainsFunc(s.Layers, func(l *Layer) bool {
			return l.EnterAt.WaitsForRealignment() || l.LeaveAt.WaitsForRealignment() || l.Loop == CutRealignment || l.Until == UntilRealignment && len(l.Process) > 0 ||
				l.Restart == RestartRealignment && len(l.Series) > 0
		}) ||
		slices.ContainsFunc(s.Plan, func(e PlanEntry) bool { return e.At.WaitsForRealignment() || e.To.WaitsForRealignment() })
}

// donors walks the layers whose groups give pulses away, to find the cycle in
// which nobody can give any more.
func (st *settler) donors() {
	for i, l := range st.s.Layers {
		if !l.resizes() {
			continue
		}
		w := newWalker(st.s, i)
		for {
			w.passRealignments() // a reset there refills the donors
			if spent, ok := w.st.Spent(); ok && w.start < w.limit {
				st.fail(l.Process[spent].Pos, "use until: realignment, stop-when-empty: yes, or a smaller by",
					"layer %q, cycle %d: no group has a pulse left to give", l.Name, w.index)
				break
			}
			if w.index%64 == 0 && w.still() {
				break
			}
			if w.start < min(l.Leaves, st.s.Length) && w.st.Shape((w.index-1)%len(l.Patterns)).Pulses == 0 {
				st.fail(l.Process[0].Pos, "stop the process earlier, say with until: realignment",
					"layer %q, cycle %d: nothing is left to play", l.Name, w.index)
				break
			}
			c, _, ok := w.time()
			if !ok {
				break
			}
			w.advance(&c)
		}
	}
}

// exceptions warns of those that change nothing, since the layer has no such
// cycle or does not sound in such a bar.
func (st *settler) exceptions() {
	s := st.s
	for i, l := range s.Layers {
		last, cycles := 0, 0
		for _, e := range l.Except {
			last = max(last, e.Cycle)
		}
		if last > 0 {
			for c := range newWalker(s, i).walk() {
				if cycles = c.Index; cycles == last {
					break
				}
			}
		}
		for _, e := range l.Except {
			bar := s.barring.bar(max(e.Bar, 1))
			switch {
			case e.Cycle > cycles:
				st.warn(e.Pos, fmt.Sprintf("it has %d cycles", cycles), "except: layer %q has no cycle %d", l.Name, e.Cycle)
			case e.Bar > 0 && (bar.End() <= l.begins() || bar.Start >= l.Leaves):
				st.warn(e.Pos, "name a bar in which it does", "except: layer %q does not sound in bar %d", l.Name, e.Bar)
			}
		}
	}
}
