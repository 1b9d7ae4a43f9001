package find

import "sort"

// Limits of what is looked for as a cycle of a fixed length in pulses: its
// pulses, its attacks, and how many places a shifted start is tried at.
const (
	longestTurned = 16_384
	mostAttacks   = 2048
	mostTurns     = 512
)

// turned looks for a cycle that keeps its length in pulses but is moved inside
// it, turned round, started elsewhere, or shifted in its weights: for each
// length the first cycle that differs from the first suggests what happened.
// Cycles are compared in time, so silences may meet over their edges.
func (ln *line) turned(keep func(*Description)) {
	hits, from := ln.hits, ln.lead
	for length := int64(2); length <= min((ln.end-from)/2, longestTurned); length++ {
		count := within(hits, from+length)
		if count == 0 || count > mostAttacks {
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
		n := within(moved, start+length)
		if n == 0 || moved[0].At < start || n > count || n < count-1 {
			continue
		}
		moved = moved[:n]
		groups := ln.groups(hits[:count], from, length)
		second := ln.groups(moved, start, length)
		for _, p := range ln.suggestions(groups, second) {
			p.After = int64(alike)
			if p.Kind == Retrograde {
				p.After++
			}
			keep(&Description{Groups: groups, Process: &p})
		}
		if n != count || int64(count) == length {
			continue
		}
		for j := 0; j < min(count, mostTurns); j++ {
			by := moved[0].At - start - (hits[j].At - from)
			if by == 0 || !isTurn(hits[:count], moved, j, from, start, length) {
				continue
			}
			if by = ((by % length) + length) % length; 2*by > length {
				by -= length
			}
			keep(&Description{Groups: groups, Process: &Process{Kind: Shift, By: by, After: int64(alike)}})
		}
	}
}

// suggestions says which processes could make the second cycle of the first.
func (ln *line) suggestions(first, second []Item) []Process {
	var all []Process
	if len(first) == len(second) {
		for _, p := range turns(first, second) {
			if p.Kind != Retrograde || ln.strike == Hold {
				all = append(all, p)
			}
		}
	}
	if ln.strike == Short { // turned short strokes come late in their groups
		all = append(all, Process{Kind: Retrograde})
	}
	return append(all, growths(first, second)...)
}

// within counts the hits before a moment.
func within(hits []Hit, to int64) int {
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

// groups returns one cycle as groups that fill its length. Short strokes are
// taken to fill the time until the next.
func (ln *line) groups(hits []Hit, from, length int64) []Item {
	groups := make([]Item, 0, len(hits)+1)
	now := int64(0)
	for i, h := range hits {
		at := h.At - from
		if at > now {
			groups = append(groups, Item{at - now, true})
		}
		until := length
		if i+1 < len(hits) {
			until = hits[i+1].At - from
		}
		size := min(h.Length, until-at)
		if ln.strike == Short {
			size = until - at
		}
		groups = append(groups, Item{size, false})
		now = at + size
	}
	if now < length {
		groups = append(groups, Item{length - now, true})
	}
	return groups
}
