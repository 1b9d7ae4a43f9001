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

// growGroups applies one step of a Grow rule. When the groups cannot give all that is
// asked, it returns them as they were and false.
func growGroups(groups []Group, r *Rule) ([]Group, bool) {
	target := slices.IndexFunc(groups, func(g Group) bool { return g.Spec == r.Group })
	if target < 0 { // it was used up by another rule
		return groups, false
	}
	out := slices.Clone(groups)
	by := max(int(r.By), -out[target].Size) // it loses at most all it has
	if r.From > 0 && !exchange(out, target, by, r.From) {
		return groups, false
	}
	out[target].Size += by
	out = dropEmpty(out)
	return out, len(out) > 0
}

// exchange takes what a target grows by from the other groups, from the one with a
// number on and round; what it loses goes to the group with that number. It reports
// whether all was given; if not, some groups may have changed.
func exchange(groups []Group, target, by, number int) bool {
	if by < 0 {
		to := slices.IndexFunc(groups, func(g Group) bool { return g.Spec == number })
		if to >= 0 {
			groups[to].Size -= by
		}
		return to >= 0
	}
	first := max(0, slices.IndexFunc(groups, func(g Group) bool { return g.Spec >= number }))
	for k := range groups {
		if giver := (first + k) % len(groups); giver != target {
			gift := min(by, groups[giver].Size)
			groups[giver].Size -= gift
			by -= gift
		}
	}
	return by == 0
}

// dropEmpty drops the groups that are used up.
func dropEmpty(groups []Group) []Group {
	return slices.DeleteFunc(groups, func(g Group) bool { return g.Size == 0 })
}
