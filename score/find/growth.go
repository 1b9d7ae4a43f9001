package find

import (
	"slices"

	"tieover/score/process"
)

// growths suggests how groups of the first cycle became those that rest begins with: one
// got longer or shorter, or one took from another, which may be used up.
func growths(first, rest []Item) []process.Rule {
	m := len(first)
	differ := func(i, j int) bool { return i >= m || j >= len(rest) || first[i] != rest[j] }
	var changed []int
	for i := 0; i < m && i < len(rest) && len(changed) <= 2; i++ {
		if differ(i, i) {
			changed = append(changed, i)
		}
	}
	change := func(i, j int) int64 { return rest[j].Size - first[i].Size }
	var all []process.Rule
	if len(rest) >= m {
		switch len(changed) {
		case 1:
			i := changed[0]
			if first[i].Blank == rest[i].Blank {
				all = append(all, process.Rule{Kind: process.Grow, Group: i + 1, By: change(i, i)})
			}
		case 2:
			to, from := changed[0], changed[1]
			if change(to, to) < 0 {
				to, from = from, to
			}
			if by := change(to, to); by > 0 && by == -change(from, from) && first[to].Blank == rest[to].Blank && first[from].Blank == rest[from].Blank {
				all = append(all, process.Rule{Kind: process.Grow, Group: to + 1, By: by, From: from + 1})
			}
		}
	}
	return append(all, absorbedGroup(first, rest)...)
}

// absorbedGroup suggests that one group took all that another had.
func absorbedGroup(first, rest []Item) []process.Rule {
	m := len(first)
	if len(rest) < m-1 || m < 2 {
		return nil
	}
	var all []process.Rule
	try := func(gone int) {
		grown := -1
		for i := range m - 1 {
			k := i
			if i >= gone {
				k++
			}
			item := first[k]
			if item == rest[i] {
				continue
			}
			if grown >= 0 || item.Blank != rest[i].Blank || rest[i].Size-item.Size != first[gone].Size {
				return
			}
			grown = k
		}
		if grown >= 0 {
			all = append(all, process.Rule{Kind: process.Grow, Group: grown + 1, By: first[gone].Size, From: gone + 1})
		}
	}
	i := 0
	for i < m-1 && first[i] == rest[i] {
		i++
	}
	try(i) // the group that differs first is the one that is gone
	j := i + 1
	for j < m-1 && first[j] == rest[j] {
		j++
	}
	if j < m {
		try(j) // it is the one that grew; the next that differs is gone
	}
	return all
}

// lengthChanges suggests growth, or a group that is appended, that makes the next cycle of
// the first.
func lengthChanges(first, next []Item) []process.Rule {
	if m := len(first); len(next) > m {
		if slices.Equal(first, next[:m]) && !next[m].Blank {
			return []process.Rule{{Kind: process.Append, Size: int(next[m].Size)}}
		}
		return nil
	}
	return growths(first, next)
}
