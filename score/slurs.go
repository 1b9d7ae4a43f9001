package score

import (
	"slices"

	"tieover/score/beat"
)

// Slurring says what a layer slurs together in each cycle.
type Slurring struct {
	By     SlursBy
	Counts []int // for SlurCounts: attacks, at least 1 each, dealt round in sounding order
}

type SlursBy int

const (
	SlurNone SlursBy = iota
	SlurGroup
	SlurCycle
	SlurCounts
)

// Slur says which slurs start and stop at an attack. Those of one layer follow each other
// without overlap; a rest divides what a slur would lead over.
type Slur struct{ Starts, Stops bool }

// unit numbers, from 1, what attack k of a cycle would be slurred together with; 0
// for nothing.
func (s *Slurring) unit(c *Cycle, k int) int {
	switch s.By {
	case SlurGroup:
		return c.Attacks[k].Group + 1
	case SlurCycle:
		return 1
	case SlurCounts:
		for n := 1; ; n++ {
			if k -= s.Counts[(n-1)%len(s.Counts)]; k < 0 {
				return n
			}
		}
	}
	return 0
}

// plannedSlur joins the attacks of a layer at two moments and all between.
type plannedSlur struct{ from, to beat.Time }

// Slurs reads the slurs of a layer, attack by attack.
type Slurs struct {
	l       *Layer
	planned []plannedSlur // to come
	open    bool
}

// Slurs returns a reader of the layer's slurs; nil where it has none.
func (l *Layer) Slurs() *Slurs {
	if l.Slurring.By == SlurNone && l.slurs == nil {
		return nil
	}
	return &Slurs{l: l, planned: l.slurs}
}

// Next returns what attack k of a cycle has. It must be called with every attack of
// every cycle, in order. A nil Slurs has none.
func (s *Slurs) Next(c *Cycle, k int) Slur {
	if s == nil {
		return Slur{}
	}
	at := c.Start + c.Attacks[k].At
	for len(s.planned) > 0 && s.planned[0].to < at {
		s.planned = s.planned[1:]
	}
	if len(s.planned) > 0 && s.planned[0].from <= at {
		s.open = false
		return Slur{Starts: s.planned[0].from == at, Stops: s.planned[0].to == at}
	}
	goesOn := s.goesOn(c, k)
	slur := Slur{Starts: goesOn && !s.open, Stops: s.open && !goesOn}
	s.open = goesOn
	return slur
}

// goesOn reports whether the layer slurs an attack to the one after it.
func (s *Slurs) goesOn(c *Cycle, k int) bool {
	if k+1 >= len(c.Attacks) {
		return false
	}
	a, next := &c.Attacks[k], &c.Attacks[k+1]
	if a.At+a.Length != next.At || len(s.planned) > 0 && s.planned[0].from <= c.Start+next.At {
		return false
	}
	unit := s.l.Slurring.unit(c, k)
	return unit > 0 && unit == s.l.Slurring.unit(c, k+1)
}

// slurs finds what the plan's slurs join in each layer.
func (st *settler) slurs() {
	s := st.s
	for i, l := range s.Layers {
		l.slurs = nil
		var asked []*PlanEntry
		for k := range s.Plan {
			if e := &s.Plan[k]; e.Slur && e.Serves(l) {
				asked = append(asked, e)
			}
		}
		for k, e := range asked {
			if k > 0 && e.Time <= asked[k-1].ToTime {
				st.fail(e.At.Pos, "let one end before the other begins", "two slurs of %s overlap", l.Name)
				return
			}
			made := s.stretches(i, e.Time, e.ToTime)
			if len(made) == 0 {
				st.warn(e.At.Pos, "let it reach over two notes without a rest between them", "the slur of %s joins no two notes", l.Name)
			}
			l.slurs = append(l.slurs, made...)
		}
	}
}

// stretches lists what a slur from one moment to another joins in a layer: stretches of
// two attacks or more without a rest between them.
func (s *Section) stretches(layer int, from, to beat.Time) []plannedSlur {
	var all []plannedSlur
	end := beat.Time(-1) // of the attack before
	for at, a := range s.Attacks(layer) {
		if at > to || at >= s.Length { // a landing is no part of it
			break
		}
		if at < from {
			continue
		}
		if last := len(all) - 1; last >= 0 && end == at {
			all[last].to = at
		} else {
			all = append(all, plannedSlur{at, at})
		}
		end = at + a.Length
	}
	return slices.DeleteFunc(all, func(p plannedSlur) bool { return p.from == p.to })
}
