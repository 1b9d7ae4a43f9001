package find

import "slices"

// loops finds the shortest cycle that repeats to the end; the last value may
// be cut off. Two full statements are asked for.
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
		ln.try(&Description{Groups: ln.items[:p]})
	}
}

// fullBeforeCut is how often a cycle of m groups must be heard in full before it
// is cut. Twice or three times one value and a shorter one is to everybody a
// grouping of its own: 3+3+2, 2+2+2+1.
func fullBeforeCut(m int) int {
	if m == 1 {
		return 4
	}
	return 2
}

// cuts finds a cycle that starts over every so many pulses. It is heard in
// full at least twice before the first cut, and at least once cut short.
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
			ln.try(&Description{Groups: x[:m], CutEvery: total(x[:i+1])})
		}
		if i%m != 0 { // at a group's edge: the cycle starts over although more was due
			ln.try(&Description{Groups: x[:m], CutEvery: total(x[:i])})
		}
		for back := 1; back < m && i-back >= fullBeforeCut(m)*m; back++ { // values after the cut that agreed by chance
			if at := i - back; at%m != 0 && x[at] == x[0] && x[i] == x[back] {
				ln.try(&Description{Groups: x[:m], CutEvery: total(x[:at])})
			}
		}
	}
}
