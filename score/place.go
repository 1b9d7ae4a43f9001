package score

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"tieover/score/beat"
)

// plan applies the meter changes of the plan, in their order.
func (st *settler) plan() {
	s := st.s
	for i := range s.Plan {
		e := &s.Plan[i]
		if e.Meter == nil {
			continue
		}
		for _, l := range s.Layers { // whose entries are found when the meter is known
			if e.At.Layer == l.Name && l.EnterAt != nil {
				st.fail(e.At.Pos, "name a bar", "the meter cannot change by %s, which enters later", l.Name)
				return
			}
		}
		t := st.locate(e.At, -1)
		if len(st.problems) > 0 {
			return
		}
		bar := s.barring.at(t)
		last := s.barring.runs[len(s.barring.runs)-1]
		switch {
		case t < 0:
			st.fail(e.At.Pos, "write it as the section's meter", "the meter cannot change in the pickup")
			return
		case t == 0 && s.Opening() < 0 && !e.Meter[0].Equal(s.Meter[0]):
			st.fail(e.At.Pos, "write it as the section's meter", "bar 1 has the meter that its pickup is counted in")
			return
		case bar.Start != t:
			st.fail(e.At.Pos, "name a bar, or a moment that falls on one", "the meter can change only on a barline; this is inside bar %d", bar.N)
			return
		case t < last.start:
			st.fail(e.At.Pos, "list meter changes in the order in which they come", "this meter change comes before the one listed above it")
			return
		}
		s.barring.change(s.Grid, t, bar.N, e.Meter)
		st.meet() // a set that counts the barline meets at other moments now
	}
}

// locate returns the moment of a place, the section's opening for a cycle that begins
// before it.
func (st *settler) locate(p Place, own int) beat.Time {
	return max(st.moment(p, own), st.s.Opening())
}

// moment returns the moment of a place, negative for a cycle that begins before the
// section; own is the layer whose key it is, -1 in a plan. A place
// beyond reach is a problem.
func (st *settler) moment(p Place, own int) beat.Time {
	s := st.s
	t := never
	switch p.Kind {
	case AtBar:
		if p.N <= MaxBars {
			t = st.inBar(p)
		}
	case AtPulse:
		unit := s.Grid.Must(s.Pulse.Span())
		if p.N-1 < int64(never/unit) {
			t = beat.Time(p.N-1) * unit
		}
	case AtRealignment:
		t = st.realignmentTime(p)
	case AtCycle:
		t = st.cycleTime(p, own)
	case AtAttack:
		t = st.attackTime(p, own)
	}
	if t > s.Length && len(st.problems) == 0 {
		st.fail(p.Pos, "the section has "+beat.Counted(s.BarCount(), "bar"), "%s lies beyond the section's end", p)
	}
	return t
}

func (st *settler) inBar(p Place) beat.Time {
	if p.N == 0 {
		return st.inPickup(p)
	}
	bar := st.s.barring.bar(int(p.N))
	if p.Beat <= 1 {
		return bar.Start
	}
	beats := st.s.beatTimes(bar)
	if n := len(beats) - 1; p.Beat > n {
		st.fail(p.Pos, fmt.Sprintf("bar %d has %d beats", p.N, n), "bar %d has no beat %d", p.N, p.Beat)
		return bar.Start
	}
	return beats[p.Beat-1]
}

func (st *settler) realignmentTime(p Place) beat.Time {
	s := st.s
	if s.meeting.Never {
		st.fail(p.Pos, "name a bar instead", "there is no realignment %d: the layers never begin together", p.N)
		return 0
	}
	if p.N == 0 {
		if !s.meeting.Start {
			st.fail(p.Pos, "count from realignment 1", "there is no realignment 0: the layers do not begin together at the start")
		}
		return 0
	}
	if t := s.meeting.nth(int(p.N)); t <= min(s.Length, s.reach) {
		return t
	}
	return never
}

// layerOf returns the layer that a cycle or an attack belongs to, nil after a
// problem. own is the layer whose key the place is, -1 in a plan.
func (st *settler) layerOf(p Place, own int) (*Layer, int) {
	layers := st.s.Layers
	switch {
	case own >= 0:
	case p.Layer == "" && len(layers) == 1:
		own = 0
	default:
		own = slices.IndexFunc(layers, func(l *Layer) bool { return l.Name == p.Layer })
	}
	if own >= 0 {
		return layers[own], own
	}
	st.fail(p.Pos, "name a layer of this section", "there is no layer %q", p.Layer)
	return nil, own
}

// cycleTime returns when a layer's Nth cycle begins, as if it had played from
// the section's start; never where it does not come within reach.
func (st *settler) cycleTime(p Place, own int) beat.Time {
	s := st.s
	l, own := st.layerOf(p, own)
	if l == nil {
		return 0
	}
	if l.Line != nil {
		st.fail(p.Pos, "name a bar instead", "layer %q is a free line and has no cycles", l.Name)
		return 0
	}
	w := newWalker(s, own) // as it plays, cuts and resets and all
	for c := range w.walk() {
		switch {
		case c.Start > s.reach || w.isOver(c):
			return never
		case int64(c.Index) == p.N:
			return c.Start
		}
	}
	return never
}

// attackTime returns when an attack of a layer begins, as the layer is heard,
// the stroke of a landing with it; never where its cycle does not come within
// reach.
func (st *settler) attackTime(p Place, own int) beat.Time {
	l, own := st.layerOf(p, own)
	if l == nil {
		return 0
	}
	if p.Cycle > 0 && st.cycleTime(Place{Pos: p.Pos, Kind: AtCycle, N: p.Cycle}, own) == never {
		return never
	}
	n, r := int64(0), st.s.ReadCycles(own)
	for {
		c, ok := r.Next()
		if !ok || c.Length == 0 || c.Start > st.s.reach || p.Cycle > 0 && (int64(c.Index) > p.Cycle || c.Landing) {
			break
		}
		if p.Cycle > 0 && int64(c.Index) < p.Cycle {
			continue
		}
		if left := p.N - n; left <= int64(len(c.Attacks)) {
			return c.Start + c.Attacks[left-1].At
		}
		n += int64(len(c.Attacks))
	}
	of, has := l.Name, "no attacks"
	if p.Cycle > 0 {
		of = fmt.Sprintf("cycle %d of %s", p.Cycle, l.Name)
	}
	hint := "name a bar instead"
	if n > 0 {
		has, hint = beat.Counted(n, "attack"), "choose one of them"
	}
	st.fail(p.Pos, hint, "%s has %s, so there is no attack %d", of, has, p.N)
	return 0
}

// WaitsForRealignment reports whether there is a place and a realignment decides it.
func (p *Place) WaitsForRealignment() bool { return p != nil && p.Kind == AtRealignment }

// String writes the place as a spec does.
func (p Place) String() string {
	switch p.Kind {
	case AtBar:
		switch {
		case p.N == 0 && p.Beat > 0:
			return fmt.Sprintf("pickup beat %d", p.Beat)
		case p.N == 0:
			return "pickup"
		case p.Beat > 1:
			return fmt.Sprintf("bar %d beat %d", p.N, p.Beat)
		}
		return fmt.Sprintf("bar %d", p.N)
	case AtPulse:
		return fmt.Sprintf("pulse %d", p.N)
	case AtRealignment:
		return fmt.Sprintf("realignment %d", p.N)
	case AtAttack:
		attack := fmt.Sprintf("attack %d", p.N)
		if p.Cycle > 0 {
			attack = fmt.Sprintf("cycle %d %s", p.Cycle, attack)
		}
		return strings.TrimSpace(p.Layer + " " + attack)
	}
	return strings.TrimSpace(fmt.Sprintf("%s cycle %d", p.Layer, p.N))
}

// places finds the moments of the plan and puts it in time order.
func (st *settler) places() {
	s := st.s
	for i := range s.Plan {
		e := &s.Plan[i]
		e.Time = st.locate(e.At, -1)
		if e.To != nil {
			if e.ToTime = st.locate(*e.To, -1); e.ToTime <= e.Time && len(st.problems) == 0 {
				st.fail(e.To.Pos, "let it end later than it begins", "the %s ends before it begins", e.spanName())
			}
		}
	}
	slices.SortStableFunc(s.Plan, func(a, b PlanEntry) int { return cmp.Compare(a.Time, b.Time) })
}
