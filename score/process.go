package score

import (
	"slices"

	"tieover/score/beat"
)

// sized is one group of a pattern while processes change it.
type sized struct {
	size  int
	spec  int // from 1; appended groups go on counting
	blank bool
}

// state is what the processes of a layer have made of its patterns by one
// cycle. Sizes and lengths stay changed, rotate and shift move the head and
// stay, retrograde turns only the cycle it falls on.
type state struct {
	layer    *Layer
	passes   int       // cycles begun since the entry or the last reset; 1 in the first
	patterns [][]sized // current sizes, one list a pattern
	first    []int     // which group a cycle begins with, from 0, one a pattern
	shift    int64     // pulses
	spent    *Process  // a process that found nobody to give, nil while all is well
}

func newState(l *Layer) *state {
	st := &state{layer: l}
	st.reset()
	return st
}

// reset takes all processes back; the next cycle is the first again.
func (st *state) reset() {
	st.passes, st.first, st.shift, st.spent = 1, make([]int, len(st.layer.Patterns)), 0, nil
	st.patterns = st.patterns[:0]
	for _, p := range st.layer.Patterns {
		groups := make([]sized, 0, len(p.Groups))
		for i, item := range p.Groups {
			groups = append(groups, sized{item.Size, i + 1, item.Blank})
		}
		st.patterns = append(st.patterns, groups)
	}
}

// step moves on to the next cycle.
func (st *state) step() {
	st.passes++
	for i := range st.layer.Process {
		p := &st.layer.Process[i]
		if p.Kind == Retrograde || (st.passes-1)%p.After != 0 {
			continue
		}
		switch p.Kind {
		case Rotate:
			st.rotate(p.By)
		case Shift:
			st.shift += p.By
		case Append:
			for j, groups := range st.patterns {
				next := len(groups) + 1
				for _, g := range groups {
					next = max(next, g.spec+1)
				}
				st.patterns[j] = append(slices.Clip(groups), sized{p.Size, next, false})
			}
		case Grow:
			for j := range st.patterns {
				grown, ok := grow(st.patterns[j], p)
				if !ok && !p.Hold {
					st.spent = p
				}
				st.first[j] = stillFirst(st.patterns[j], grown, st.first[j])
				st.patterns[j] = grown
			}
		}
	}
}

// rotate lets cycles begin by groups further on, or back when it is negative.
func (st *state) rotate(by int64) {
	for j, groups := range st.patterns {
		if n := len(groups); n > 0 {
			st.first[j] = int(beat.Time(int64(st.first[j]) + by).Mod(beat.Time(n)))
		}
	}
}

// stillFirst returns where among the groups after a change the one stands that
// a cycle began with, or, when it is used up, the next that is not.
func stillFirst(before, after []sized, first int) int {
	for k := range before {
		spec := before[(first+k)%len(before)].spec
		if i := slices.IndexFunc(after, func(g sized) bool { return g.spec == spec }); i >= 0 {
			return i
		}
	}
	return 0
}

// backwards reports whether this cycle is played in retrograde.
func (st *state) backwards() bool {
	turned := false
	for _, p := range st.layer.Process {
		if p.Kind == Retrograde && st.passes%p.After == 0 {
			turned = !turned
		}
	}
	return turned
}

// resizes reports whether processes change sizes, so that passes matter.
func (l *Layer) resizes() bool {
	return slices.ContainsFunc(l.Process, func(p Process) bool { return p.Kind == Grow || p.Kind == Append })
}

// grow applies one step of a Grow process. When nobody can give all that is
// asked, it returns the groups as they were and false.
func grow(groups []sized, p *Process) ([]sized, bool) {
	target := slices.IndexFunc(groups, func(g sized) bool { return g.spec == p.Group })
	if p.By < 0 {
		return shrink(groups, target, p)
	}
	if target < 0 { // it was used up by another process
		return groups, false
	}
	out := slices.Clone(groups)
	if p.From > 0 {
		need := int(p.By)
		first := slices.IndexFunc(out, func(g sized) bool { return g.spec >= p.From })
		if first < 0 {
			first = 0
		}
		for k := range out {
			giver := (first + k) % len(out)
			if giver == target {
				continue
			}
			gift := min(need, out[giver].size)
			out[giver].size -= gift
			need -= gift
		}
		if need > 0 {
			return groups, false
		}
	}
	out[target].size += int(p.By)
	return slices.DeleteFunc(out, func(g sized) bool { return g.size == 0 }), true
}

// shrink takes pulses from the target; a From group gets them.
func shrink(groups []sized, target int, p *Process) ([]sized, bool) {
	if target < 0 {
		return groups, false
	}
	out := slices.Clone(groups)
	gift := min(int(-p.By), out[target].size)
	out[target].size -= gift
	if p.From > 0 {
		if i := slices.IndexFunc(out, func(g sized) bool { return g.spec == p.From }); i >= 0 {
			out[i].size += gift
		} else {
			return groups, false
		}
	}
	out = slices.DeleteFunc(out, func(g sized) bool { return g.size == 0 })
	return out, len(out) > 0 || p.From > 0
}

// pulsesOf adds up the sizes.
func pulsesOf(groups []sized) int64 {
	n := int64(0)
	for _, g := range groups {
		n += int64(g.size)
	}
	return n
}

// layout of one cycle: its sizes in played order and where its head falls.
type shape struct {
	groups   []sized // rotated, before retrograde and shift
	pulses   int64
	shift    int64 // in [0, pulses)
	reversed bool
	head     int64 // pulses from the cycle's start
}

// played lists the sizes as they follow each other, before any shift.
func (sh shape) played() []int {
	sizes := make([]int, len(sh.groups))
	for i, g := range sh.groups {
		sizes[i] = g.size
	}
	if sh.reversed {
		slices.Reverse(sizes)
	}
	return sizes
}

// shape returns the cycle that the state stands at, played from pattern i.
func (st *state) shape(i int) shape {
	groups := st.patterns[i]
	sh := shape{groups: groups, pulses: pulsesOf(groups), reversed: st.backwards()}
	if sh.pulses == 0 {
		return sh
	}
	sh.shift = int64(beat.Time(st.shift).Mod(beat.Time(sh.pulses)))
	if r := st.first[i]; r > 0 {
		sh.groups = append(slices.Clone(groups[r:]), groups[:r]...)
	}
	for _, g := range sh.groups {
		if g.spec == 1 {
			break
		}
		sh.head += int64(g.size)
	}
	if sh.head >= sh.pulses { // group 1 is used up: the head stays where it was
		sh.head = 0
	}
	sh.head = (sh.head + sh.shift) % sh.pulses
	return sh
}
