package process

import (
	"slices"

	"tieover/score/beat"
)

// Shape is one cycle: its sizes in played order, and where its head falls.
type Shape struct {
	Groups    []Group // rotated, before retrograde and shift; must not be changed
	Pulses    int64   // of the whole cycle; 0: all groups are used up, and nothing can be played
	Shift     int64   // how far the cycle is moved inside itself, in [0, Pulses)
	Backwards bool    // it is played in retrograde
	Head      int64   // where its figure begins, in pulses from the cycle's start: with group 1, or backwards with the group that goes before it
}

// Plain returns the shape of groups that no rule has changed.
func Plain(groups []Group) Shape { return Shape{Groups: groups, Pulses: Pulses(groups)} }

// PlaysLike reports whether the same sizes follow each other, before any shift.
func (s Shape) PlaysLike(other Shape) bool {
	return slices.EqualFunc(s.Played(), other.Played(), func(a, b Group) bool { return a.Size == b.Size })
}

// Played lists the groups as they follow each other, before any shift. They must not
// be changed.
func (s Shape) Played() []Group {
	if !s.Backwards {
		return s.Groups
	}
	groups := slices.Clone(s.Groups)
	slices.Reverse(groups)
	return groups
}

// Shape returns the current cycle, played from pattern i.
func (st *State) Shape(i int) Shape {
	if st.still != nil {
		return st.still[i]
	}
	p := st.patterns[i]
	s := Shape{Groups: p.groups, Pulses: Pulses(p.groups), Backwards: st.isBackwards()}
	if s.Pulses == 0 {
		return s
	}
	s.Shift = beat.Mod(st.shift, s.Pulses)
	if p.first > 0 {
		s.Groups = append(slices.Clone(p.groups[p.first:]), p.groups[:p.first]...)
	}
	for _, g := range s.Groups {
		if g.Spec == 1 {
			break
		}
		s.Head += int64(g.Size)
	}
	if s.Backwards {
		s.Head = s.Pulses - s.Head
	}
	s.Head = (s.Head + s.Shift) % s.Pulses // where group 1 is used up, the start
	return s
}

// Pulses adds up sizes.
func Pulses(groups []Group) int64 {
	n := int64(0)
	for _, g := range groups {
		n += int64(g.Size)
	}
	return n
}
