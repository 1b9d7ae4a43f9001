package score

import (
	"slices"
	"sort"

	"tieover/score/beat"
)

// outside returns the parts of a group that lie outside [from, to), at most
// two; a part that does not begin the group is its tail.
func outside(g Group, from, to beat.Time) []Group {
	end := g.At + g.Length
	if end <= from || g.At >= to {
		return []Group{g}
	}
	var parts []Group
	if g.At < from {
		head := g
		head.Length = from - g.At
		parts = append(parts, head)
	}
	if end > to {
		tail := g
		tail.At, tail.Length, tail.Tail = to, end-to, true
		parts = append(parts, tail)
	}
	return parts
}

// clipped returns the part of a group inside [from, to).
func clipped(g Group, from, to beat.Time) Group {
	end := min(g.At+g.Length, to)
	if g.At < from {
		g.At, g.Tail = from, true
	}
	g.Length = end - g.At
	return g
}

func sortGroups(groups []Group) {
	slices.SortFunc(groups, func(a, b Group) int { return int(a.At - b.At) })
}

// regroup puts the attacks in order and points each at the group that holds it.
func regroup(c *Cycle) {
	slices.SortFunc(c.Attacks, func(a, b Attack) int { return int(a.At - b.At) })
	for i := range c.Attacks {
		at := c.Attacks[i].At
		c.Attacks[i].Group = sort.Search(len(c.Groups), func(k int) bool { return c.Groups[k].At > at }) - 1
	}
}
