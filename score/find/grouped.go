package find

import (
	"slices"

	"tieover/score/process"
)

// loops tries the shortest cycle that repeats to the end, where the last value may be cut
// off, if it is heard twice in full.
func (ln *line) loops() {
	n := len(ln.items)
	p, ok := period(ln.items)
	if !ok {
		return
	}
	if ln.items[n-1] != ln.items[n-1-p] && ln.strike != Short { // cut off: it completes nothing
		n--
	}
	if ln.items[p-1].Blank && p > 2 {
		n++ // the silence after the last sound is whole
	}
	if n >= 2*p {
		ln.try(Stretch{Groups: ln.items[:p]})
	}
}

// fullBeforeCut is how often a cycle of m groups must be heard in full before it is cut.
// Two or three times one value and then a shorter one make a grouping of their own:
// 3+3+2, 2+2+2+1.
func fullBeforeCut(m int) int {
	if m == 1 {
		return 4
	}
	return 2
}

// cuts tries cycles that start over every so many pulses: heard in full at least twice
// before the first cut, and at least once cut short.
func (ln *line) cuts() {
	x := ln.items
	n := len(x)
	type heard struct{ groups, until int }
	var shorter []heard // cycles that were heard at least twice
	for m := 1; m <= min(n/2, longestCycle); m++ {
		i := m
		for i < n && x[i] == x[i-m] {
			i++
		}
		if i < fullBeforeCut(m)*m || i >= n-1 || slices.ContainsFunc(shorter, func(h heard) bool { return m%h.groups == 0 && h.until == i }) {
			continue
		}
		shorter = append(shorter, heard{m, i})
		if x[i].Blank == x[i-m].Blank && x[i].Size < x[i-m].Size {
			ln.try(Stretch{Groups: x[:m], CutEvery: total(x[:i+1])})
		}
		if i%m != 0 { // at a group's edge: the cycle starts over although more was due
			ln.try(Stretch{Groups: x[:m], CutEvery: total(x[:i])})
		}
		for back := 1; back < m && i-back >= fullBeforeCut(m)*m; back++ { // values after the cut that agreed by chance
			if at := i - back; at%m != 0 && x[at] == x[0] && x[i] == x[back] {
				ln.try(Stretch{Groups: x[:m], CutEvery: total(x[:at])})
			}
		}
	}
}

// processes tries cycles that change from pass to pass. For each number of groups the
// cycles that are like the first are counted; the one after them suggests the processes
// that could have made it, and each of these is played to the end of the list.
func (ln *line) processes() {
	x := ln.items
	n := len(x)
	plain := 0 // values from the start that a shorter cycle explains
	sums := prefixWeights(x)
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
			if p.Kind == process.Retrograde && ln.strike == All { // turned round it would begin with its accents
				return
			}
			ln.offer(first, p)
			if alike > 1 && p.After == alike && m <= longestPaired && ln.strike == Hold {
				for _, p := range earlierChanges(p, m) {
					ln.offer(first, p, process.Rule{Kind: process.Retrograde, After: alike})
				}
			}
		}
		if second := x[alike*m:]; len(second) >= m {
			if sums[m] == sums[(alike+1)*m]-sums[alike*m] { // else they are not the same groups
				for _, p := range orderChanges(first, second[:m]) {
					try(delay(p, alike))
				}
			}
		}
		if m <= longestPaired && ln.strike != All && looped < (alike+2)*m {
			ln.severalAtOnce(first, x[alike*m:], alike)
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

// earlierChanges suggests that a rotation or growth had begun a cycle earlier, which
// sounds like the first only because it is turned round. If that is the second cycle, the
// third has changed twice.
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
