package find

import (
	"slices"

	"tieover/score/process"
)

// growths suggests how groups of the first cycle became those that rest begins with: one
// got longer or shorter, or one took from another, which may be used up.
func growths(first, rest []Item) []process.Rule {
	if len(rest) < len(first) {
		return absorbedGroup(first, rest)
	}
	var changed []int
	sounds := true // or is silent, as before
	for i := 0; i < len(first) && len(changed) <= 2; i++ {
		if first[i] != rest[i] {
			changed = append(changed, i)
			sounds = sounds && first[i].Blank == rest[i].Blank
		}
	}
	change := func(i int) int64 { return rest[i].Size - first[i].Size }
	var all []process.Rule
	switch {
	case !sounds:
	case len(changed) == 1:
		all = append(all, process.Rule{Kind: process.Grow, Group: changed[0] + 1, By: change(changed[0])})
	case len(changed) == 2 && change(changed[0]) == -change(changed[1]):
		to, from := changed[0], changed[1]
		if change(to) < 0 {
			to, from = from, to
		}
		all = append(all, process.Rule{Kind: process.Grow, Group: to + 1, By: change(to), From: from + 1})
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
