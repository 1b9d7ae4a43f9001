package find

import "sort"

// longestShift is the longest cycle in pulses that is looked for as a phase
// process, and mostTurns how many places its start is tried at.
const (
	longestShift = 65_536
	mostTurns    = 512
)

// shifts looks for a cycle whose pattern moves inside its length: for each
// length the first cycle's onsets are found again, moved, in the first cycle
// that differs.
func (ln *line) shifts(keep func(*Description)) {
	hits, from := ln.hits, ln.lead
	for length := int64(2); length <= min((ln.end-from)/fewestCycles, longestShift); length++ {
		count := within(hits, from, from+length)
		if count == 0 || count > longestCycle || count == int(length) {
			continue
		}
		alike := 1
		for ln.again(count, alike, length) {
			alike++
		}
		start := from + int64(alike)*length
		if alike*count >= len(hits) || start+length > ln.end {
			continue
		}
		moved := hits[alike*count:]
		if len(moved) < count || moved[0].At < start || within(moved, start, start+length) != count {
			continue
		}
		groups := ln.groups(count, length)
		for j := 0; j < min(count, mostTurns); j++ {
			by := moved[0].At - start - (hits[j].At - from)
			if by == 0 || !isTurn(hits[:count], moved[:count], j, from, start, length) {
				continue
			}
			if by = ((by % length) + length) % length; 2*by > length {
				by -= length
			}
			d := &Description{Groups: groups, Lead: ln.lead, Process: &Process{Kind: Shift, By: by, After: int64(alike)}}
			if d.fits(hits, ln.end) && d.heard(ln.end) {
				keep(d)
			}
		}
	}
}

// within counts the hits in [from, to); from is not after the first.
func within(hits []Hit, from, to int64) int {
	return sort.Search(len(hits), func(i int) bool { return hits[i].At >= to })
}

// again reports whether cycle k (from 0) has the onsets of the first.
func (ln *line) again(count, k int, length int64) bool {
	if (k+1)*count > len(ln.hits) {
		return false
	}
	for i := range count {
		if ln.hits[k*count+i].At != ln.hits[i].At+int64(k)*length {
			return false
		}
	}
	return true
}

// isTurn reports whether the moved cycle has the first one's onsets, beginning
// with its hit j.
func isTurn(first, moved []Hit, j int, from, start, length int64) bool {
	by := moved[0].At - start - (first[j].At - from)
	for i := range first {
		at := first[(j+i)%len(first)].At - from + by
		if moved[i].At-start != ((at%length)+length)%length {
			return false
		}
	}
	return true
}

// groups returns the first cycle as groups that fill its length.
func (ln *line) groups(count int, length int64) []Item {
	var groups []Item
	now := int64(0)
	for i, h := range ln.hits[:count] {
		at := h.At - ln.lead
		if at > now {
			groups = append(groups, Item{at - now, true})
		}
		size := min(h.Length, length-at)
		if i+1 < count {
			size = min(size, ln.hits[i+1].At-h.At)
		}
		groups = append(groups, Item{size, false})
		now = at + size
	}
	if now < length {
		groups = append(groups, Item{length - now, true})
	}
	return groups
}
