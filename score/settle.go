package score

import (
	"cmp"
	"fmt"
	"slices"

	"tieover/score/beat"
	"tieover/score/source"
)

// Limits that hold for a piece, checked by arithmetic before anything is made.
const (
	MaxBars    = 1_000_000
	MaxAttacks = 50_000_000

	// ReachBars is how far off a realignment may lie that a section lasts to.
	ReachBars = 4096
)

// Settle computes what the spec leaves to be computed: lengths, realigning
// sets, entries, places of the plan, bar numbers and labels. It reports all
// that cannot be; then the piece must not be used. Warnings go to p.Warnings.
func (p *Piece) Settle() source.Problems {
	var problems source.Problems
	start, bar := beat.Time(0), 1
	for i, s := range p.Sections {
		s.Grid, s.FirstBar, s.Last = p.Grid, bar, i == len(p.Sections)-1
		start -= s.Opening()
		s.Start = start
		st := settler{s: s, piece: p}
		st.run()
		problems = append(problems, st.problems...)
		if len(st.problems) > 0 {
			continue
		}
		start += s.Extent()
		bar += s.BarCount()
	}
	if len(problems) == 0 {
		problems = append(p.checkLabels(), p.doublings()...)
	}
	problems.Sort()
	return problems
}

// settler settles one section.
type settler struct {
	s        *Section
	piece    *Piece
	problems source.Problems
}

func (st *settler) fail(at source.Pos, hint, format string, args ...any) {
	st.problems.Add(at, fmt.Sprintf(format, args...), hint)
}

func (st *settler) warn(at source.Pos, hint, format string, args ...any) {
	st.piece.Warnings.Add(at, fmt.Sprintf(format, args...), hint)
}

// run goes from what depends on nothing to what depends on all. It stops where
// the rest would only repeat the same mistake.
func (st *settler) run() {
	s := st.s
	s.letter = cmp.Or(s.Name, st.freeLetter())
	s.barring = barring{}
	s.barring.change(s.Grid, 0, 1, s.Meter)
	if st.pickup(); len(st.problems) > 0 {
		return
	}
	for _, l := range s.Layers {
		l.Unit = s.Grid.Must(l.Pulse.Span())
		l.Enters, l.Leaves = 0, never
		switch {
		case l.InPickup():
			l.Enters = st.inPickup(*l.EnterAt)
		case l.Line != nil:
			l.Enters = s.Opening()
		}
		l.First = l.Enters + beat.Time(l.Offset)*l.Unit
		l.once = nil
		l.byCycle = map[int]int{}
		for k, e := range l.Except {
			if e.Cycle > 0 {
				l.byCycle[e.Cycle] = k + 1
			}
		}
	}
	s.Length = never
	s.reach = s.barring.bar(ReachBars + 1).Start
	if s.LengthRule.Kind == Pulses {
		longest := s.barring.bar(MaxBars + 1).Start
		pulses := min(beat.Time(s.LengthRule.N), longest)
		s.reach = max(s.reach, min(pulses*s.Grid.Must(s.Pulse.Span()), longest))
	}
	for _, step := range []func(){
		st.set, st.meet, st.plan, st.length, st.warnOfCuts, st.presence, st.lines, st.size, st.donors,
		st.places, st.clashes, st.recording, st.rests, st.exceptions, st.dynamics, st.tempos, st.keyChanges,
		st.clefChanges, st.checkRepeat, st.slurs, st.overTheRepeat, st.writings, st.lyrics,
	} {
		if step(); len(st.problems) > 0 {
			return
		}
	}
}

// freeLetter returns the label prefix of a section without a name: the first capital
// letter that is no section's name or prefix so far.
func (st *settler) freeLetter() string {
	taken := map[string]bool{}
	for _, s := range st.piece.Sections {
		taken[s.Name] = true
		if s == st.s {
			break
		}
		taken[s.letter] = true
	}
	for c := 'A'; c <= 'Z'; c++ {
		if !taken[string(c)] {
			return string(c)
		}
	}
	return fmt.Sprintf("S%d.", len(taken))
}

// set finds the realigning set: the layers named, or all that loop from start to
// end, cut or not, but for those that realignments start over.
func (st *settler) set() {
	s := st.s
	s.Set, s.WithBarline = nil, false
	if s.SetNames == nil {
		for i, l := range s.Layers {
			if l.playsThrough() && l.Loop != CutRealignment && l.Line == nil {
				s.Set = append(s.Set, i)
			}
		}
	}
	for _, n := range s.SetNames {
		if n.Name == "barline" {
			s.WithBarline = true
			continue
		}
		i := slices.IndexFunc(s.Layers, func(l *Layer) bool { return l.Name == n.Name })
		if i < 0 {
			st.fail(n.Pos, "name a layer of this section, or barline", "realign: there is no layer %q", n.Name)
			continue
		}
		st.mayRealign(n, s.Layers[i])
		s.Set = append(s.Set, i)
	}
	slices.Sort(s.Set)
	if len(s.Set) == 1 {
		s.WithBarline = true
	}
}

// mayRealign refuses layers that do not loop from start to end, and those that
// wait for what they would make.
func (st *settler) mayRealign(n Named, l *Layer) {
	hint := fmt.Sprintf("take %q out of the realign list", l.Name)
	switch {
	case l.EnterAt.WaitsForRealignment() || l.LeaveAt.WaitsForRealignment():
		st.fail(n.Pos, hint, "layer %q enters or leaves at a realignment, so it cannot be one of those that make it", l.Name)
	case !l.playsThrough():
		st.fail(n.Pos, hint, "layer %q does not sound through the whole section, so it cannot be in the realigning set", l.Name)
	case l.Loop == CutRealignment:
		st.fail(n.Pos, hint, "layer %q starts over at realignments, so it cannot make them", l.Name)
	case l.Line != nil:
		st.fail(n.Pos, hint, "layer %q is a free line without cycles, so it cannot be in the realigning set", l.Name)
	}
}

// meet finds the realignments of the set.
func (st *settler) meet() {
	s := st.s
	s.meeting = &meeting{s: s, layers: s.Set}
	if len(s.Set) == 0 {
		s.meeting.Meeting = Meeting{Never: true, A: -1, B: -1}
		return
	}
	s.meeting.find(s.WithBarline)
}

// enter places the entry of a layer that has one. Its offset counts from there;
// but the moment of one of its own cycles has the offset in it already.
func (st *settler) enter(layer int) {
	l := st.s.Layers[layer]
	at := st.moment(*l.EnterAt, layer)
	first := at + beat.Time(l.Offset)*l.Unit
	if l.EnterAt.Kind == AtCycle {
		first = at
	}
	l.Enters, l.First = max(at, st.s.Opening()), first
}

// presence places entries and leavings.
func (st *settler) presence() {
	s := st.s
	for i, l := range s.Layers {
		l.Leaves = s.Length
		if l.EnterAt != nil {
			st.enter(i)
		}
		if l.LeaveAt != nil {
			l.Leaves = st.locate(*l.LeaveAt, i)
			if len(st.problems) == 0 && l.Leaves <= l.Enters {
				st.fail(l.LeaveAt.Pos, "let it leave later than it enters", "layer %q leaves before it has sounded", l.Name)
			}
		}
		for k := range l.Except {
			if e := &l.Except[k]; e.Bar > s.BarCount() {
				st.fail(e.Pos, fmt.Sprintf("the section has %d bars", s.BarCount()), "except: there is no bar %d", e.Bar)
			}
		}
	}
}
