package find

import "tieover/score/process"

// fewestCycles is how many cycles a process must be heard for.
const fewestCycles = 3

// processes looks for a cycle of m groups that changes from pass to pass. For
// each m the first cycles that are alike are counted, the first that differs
// suggests the processes that could have made it, and each suggestion is
// played to the end of the list.
func (ln *line) processes(keep func(*Description)) {
	x := ln.items
	n := len(x)
	plain := 0 // values from the start that a shorter cycle explains
	sums := sumsOf(x)
	for m := 1; m <= min(n/2, longestCycle, ln.most); m++ {
		run := m
		for run < n && x[run] == x[run-m] {
			run++
		}
		alike := run / m // cycles that are the same as the first
		looped := plain
		if alike > 1 {
			plain = max(plain, run)
		}
		if run == n {
			continue
		}
		first := x[:m]
		try := func(p process.Rule) {
			if p.Kind == process.Retrograde && ln.strike == All { // what is turned then begins with its accents
				return
			}
			ln.offer(&Description{Groups: first, Process: []process.Rule{p}}, keep)
			if alike > 1 && p.After == alike && m <= longestPaired && ln.strike == Hold {
				for _, p := range earlierChanges(p, m) {
					ln.offer(&Description{Groups: first, Process: []process.Rule{p, {Kind: process.Retrograde, After: alike}}}, keep)
				}
			}
		}
		if second := x[alike*m:]; len(second) >= m {
			if sums[m] == sums[(alike+1)*m]-sums[alike*m] { // else they are not the same groups
				for _, p := range turns(first, second[:m]) {
					try(afterCycles(p, alike))
				}
			}
		}
		if m <= longestPaired && ln.strike != All && looped < (alike+2)*m {
			ln.severalAtOnce(first, x[alike*m:], alike, func(ps ...process.Rule) {
				ln.offer(&Description{Groups: first, Process: ps}, keep)
			})
		}
		for _, p := range growths(first, x[alike*m:]) {
			p.After = alike
			try(p)
		}
		for after := max(1, alike-2); after < alike && (after+1)*m < n; after++ {
			if added := x[(after+1)*m]; !added.Blank {
				try(process.Rule{Kind: process.Append, Size: int(added.Size), After: after})
			}
		}
	}
}

// earlierChanges suggests that a rotation or growth began a cycle earlier, which then
// sounded like the first because it was turned round. If that was the second
// cycle, the third has changed twice.
func earlierChanges(p process.Rule, m int) []process.Rule {
	if p.Kind != process.Rotate && p.Kind != process.Grow {
		return nil
	}
	if p.After--; p.After > 1 {
		return []process.Rule{p}
	}
	var all []process.Rule
	for _, twice := range []int64{p.By, p.By + int64(m), p.By - int64(m)} {
		if p.By = twice / 2; twice%2 == 0 && p.By != 0 {
			all = append(all, p)
		}
		if p.Kind == process.Grow {
			break
		}
	}
	return all
}

// heard reports whether the processes of a description that fits have had time to
// show: three cycles, and two changes of each unless turning the cycle round is all that
// happens; and twice all that where they start over.
func (d *Description) heard() bool {
	cycles := d.Cycles
	if d.Rest > 0 {
		cycles--
	}
	need := fewestCycles
	for _, p := range d.Process {
		switch {
		case p.Kind != process.Retrograde:
			need = max(need, 2*p.After+1)
		case len(d.Process) > 1 || d.Reset > 0: // among other changes once is chance
			need = max(need, 2*p.After)
		default:
			need = max(need, p.After)
		}
	}
	if d.Reset > 0 {
		if len(d.Groups) == 1 {
			return false // 1, 2, 3 from the start again is a cycle of 1+2+3 to everybody
		}
		return d.Reset >= int64(need) && int64(cycles) >= 2*d.Reset
	}
	return cycles >= need
}

// turns suggests rotation and retrograde: of groups, or of pitches.
func turns[T comparable](first, second []T) []process.Rule {
	var all []process.Rule
	m := len(first)
	if len(second) != m {
		return nil
	}
	if r, ok := rotation(first, second); ok {
		if 2*r > m {
			r -= m
		}
		all = append(all, process.Rule{Kind: process.Rotate, By: int64(r)})
	}
	for i := range first {
		if first[i] != second[m-1-i] {
			return all
		}
	}
	return append(all, process.Rule{Kind: process.Retrograde})
}

// weight is a number of an item that hardly any other sum of items has: lists of
// different sums have not the same items in any order.
func (i Item) weight() uint64 {
	n := 2 * uint64(i.Size)
	if i.Blank {
		n++
	}
	return mix(n)
}

// mix spreads a number over 64 bits.
func mix(n uint64) uint64 {
	n *= 0x9E3779B97F4A7C15 // 2^64 by the golden ratio
	n ^= n >> 29
	return n * n
}

// sumsOf returns the weights of the first items, for each number of them.
func sumsOf(items []Item) []uint64 {
	sums := make([]uint64, len(items)+1)
	for i, item := range items {
		sums[i+1] = sums[i] + item.weight()
	}
	return sums
}

// rotation returns by how many groups first must be turned to the left to
// become second.
func rotation[T comparable](first, second []T) (r int, ok bool) {
	m := len(first)
	at := func(i int) T { // second, then first twice
		if i < m {
			return second[i]
		}
		return first[(i-m)%m]
	}
	borders := make([]int, 3*m)
	for i := 1; i < 3*m; i++ {
		b := borders[i-1]
		for b > 0 && (b >= m || at(i) != at(b)) {
			b = borders[b-1]
		}
		if at(i) == at(b) {
			b++
		}
		borders[i] = b
		if i >= m && b >= m {
			if r = i - 2*m + 1; r > 0 && r < m {
				return r, true
			}
		}
	}
	return 0, false
}

// growths suggests how groups of the first cycle became those of the second:
// one got longer, or one took from another, which may be used up.
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
