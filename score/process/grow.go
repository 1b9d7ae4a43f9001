package process

import "slices"

// add appends a group, numbered past all that are there.
func (p *pattern) add(size int) {
	next := 1
	for _, g := range p.groups {
		next = max(next, g.Spec+1)
	}
	p.groups = append(slices.Clip(p.groups), Group{Size: size, Spec: next})
}

// grow changes sizes. What cycles begin with stays their first group or, when it
// is used up, becomes the next that is not. ok is false when the rule is spent.
func (p *pattern) grow(r *Rule) (ok bool) {
	after, ok := growGroups(p.groups, r)
	p.first = newFirst(p.groups, after, p.first)
	p.groups = after
	return ok
}

// newFirst returns the place, among the groups after a change, of the one that a cycle
// began with, or, when it is used up, of the next that is not.
func newFirst(before, after []Group, first int) int {
	for k := range before {
		spec := before[(first+k)%len(before)].Spec
		if i := slices.IndexFunc(after, func(g Group) bool { return g.Spec == spec }); i >= 0 {
			return i
		}
	}
	return 0
}

// growGroups applies one step of a Grow rule. When nobody can give all that is asked,
// it returns the groups as they were and false.
func growGroups(groups []Group, r *Rule) ([]Group, bool) {
	target := slices.IndexFunc(groups, func(g Group) bool { return g.Spec == r.Group })
	if target < 0 { // it was used up by another rule
		return groups, false
	}
	if r.By < 0 {
		return shrinkGroups(groups, target, r)
	}
	out := slices.Clone(groups)
	if r.From > 0 {
		need := int(r.By)
		first := max(0, slices.IndexFunc(out, func(g Group) bool { return g.Spec >= r.From }))
		for k := range out {
			giver := (first + k) % len(out)
			if giver == target {
				continue
			}
			gift := min(need, out[giver].Size)
			out[giver].Size -= gift
			need -= gift
		}
		if need > 0 {
			return groups, false
		}
	}
	out[target].Size += int(r.By)
	return dropEmpty(out), true
}

// shrinkGroups takes pulses from the target, at most all it has; a From group gets
// them.
func shrinkGroups(groups []Group, target int, r *Rule) ([]Group, bool) {
	out := slices.Clone(groups)
	gift := min(int(-r.By), out[target].Size)
	out[target].Size -= gift
	if r.From > 0 {
		to := slices.IndexFunc(out, func(g Group) bool { return g.Spec == r.From })
		if to < 0 {
			return groups, false
		}
		out[to].Size += gift
	}
	out = dropEmpty(out)
	return out, len(out) > 0
}

// dropEmpty drops the groups that are used up.
func dropEmpty(groups []Group) []Group {
	return slices.DeleteFunc(groups, func(g Group) bool { return g.Size == 0 })
}
