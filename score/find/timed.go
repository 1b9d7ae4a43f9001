package find

import (
	"cmp"
	"slices"
	"sort"

	"tieover/score/beat"
	"tieover/score/process"
)

// Bounds of a cycle of a fixed length in pulses: its pulses, its attacks, and how many
// shifts are tried.
const (
	longestTurned = 16_384
	mostAttacks   = 2048
	mostTurns     = 4
)

// equalLengths tries cycles that keep their length in pulses but are moved inside it, turned
// round, started elsewhere, or in which a group takes from another: for each length the
// first cycle that differs suggests what happened. Cycles are compared in time, so silences
// may meet over their edges.
func (ln *line) equalLengths() {
	hits, from := ln.hits, ln.lead
	type repeated struct{ length, until int64 }
	var shorter []repeated
	for length := int64(2); length <= min((ln.end-from)/2, longestTurned); length++ {
		count := countBefore(hits, from+length)
		if count == 0 {
			continue
		}
		if count > min(mostAttacks, ln.most) {
			break
		}
		alike := 1
		for ln.repeatsFirst(count, alike, length) {
			alike++
		}
		start := from + int64(alike)*length
		if slices.ContainsFunc(shorter, func(r repeated) bool {
			return length%r.length == 0 && r.until >= from+length && start <= r.until && r.until < start+length
		}) {
			continue // the same cycle several times over
		}
		if alike > 1 && sameLengths(hits[:count], hits[count:2*count]) {
			shorter = append(shorter, repeated{length, start})
		}
		ln.suggestChange(count, alike, length)
		if same := ln.countAlike(count, alike); same < alike {
			ln.suggestChange(count, same, length)
		}
	}
}

// suggestChange tries what may have happened in the cycle after so many that are alike.
func (ln *line) suggestChange(count, alike int, length int64) {
	hits := ln.hits
	start := ln.lead + int64(alike)*length
	if alike*count >= len(hits) || start+length > ln.end {
		return
	}
	ln.shiftAndGrowth(hits[:count], start, length, alike)
	moved := hits[alike*count:]
	n := countBefore(moved, start+length)
	if n == 0 || moved[0].At < start || n > count || n < count-1 {
		return
	}
	moved = moved[:n]
	groups := ln.groups(hits[:count], ln.lead, length)
	second := ln.groups(moved, start, length)
	for _, p := range ln.suggestions(groups, second) {
		ln.try(Stretch{Groups: groups, Process: []process.Rule{delay(p, alike)}})
	}
	if len(groups) <= longestPaired && ln.strike == Hold {
		ln.severalAtOnce(groups, second, alike)
	}
	if n != count || int64(count) == length {
		return
	}
	for _, by := range shifts(hits[:count], moved, start-ln.lead, length) {
		if len(groups) > longestPaired && 5*length > ln.end-ln.lead && !ln.isShifted(hits[:count], int64(2*alike), 2*by, length) {
			continue // and it is too long to start over, or for something else to set in
		}
		ln.offer(groups, process.Rule{Kind: process.Shift, By: by, After: alike})
	}
	ln.shiftAndRetrograde(groups, moved, start, alike)
}

// isShifted reports whether cycle k (from 0) has the onsets of the first, moved by so
// many pulses inside it, as far as the line goes.
func (ln *line) isShifted(first []Hit, k, by, length int64) bool {
	start, m := ln.lead+k*length, len(first)
	by = beat.Mod(by, length)
	begins := countBefore(first, ln.lead+length-by) // the first that comes round from the end
	for i, h := range ln.hits[countBefore(ln.hits, start):] {
		if i == m {
			break
		}
		if h.At != start+beat.Mod(first[(begins+i)%m].At-ln.lead+by, length) {
			return false
		}
	}
	return true
}

// countAlike returns how many of the first cycles, which have the same onsets, also have
// the same lengths but for the last sound of each.
func (ln *line) countAlike(count, alike int) int {
	for k := 1; k < alike; k++ {
		if !sameLengths(ln.hits[:count-1], ln.hits[k*count:(k+1)*count-1]) {
			return k
		}
	}
	return alike
}

// shiftAndRetrograde offers a cycle that is shifted and turned round: both for the first
// time in the cycle that begins at start, or the shift later.
func (ln *line) shiftAndRetrograde(groups []Item, moved []Hit, start int64, alike int) {
	if len(groups) > longestPaired {
		return
	}
	length := total(groups)
	retrograde := process.Rule{Kind: process.Retrograde, After: alike + 1}
	s := &Stretch{Groups: groups, Strike: ln.strike, Process: []process.Rule{retrograde}}
	try := func(got []Hit, at int64, after int) {
		c := newCycles(s)
		for range at / length {
			c.step()
		}
		want := c.loneHits(ln.lead + at)
		if len(want) != len(got) {
			return
		}
		for _, by := range shifts(want, got, 0, length) {
			ln.offer(groups, process.Rule{Kind: process.Shift, By: by, After: after}, retrograde)
		}
	}
	try(moved, start-ln.lead, alike)
	s.At = ln.lead
	if cycle, same := s.firstMismatch(ln.hits, ln.end); !same && cycle > alike {
		from := int64(cycle) * length
		first, last := countBefore(ln.hits, ln.lead+from), countBefore(ln.hits, ln.lead+from+length)
		try(ln.hits[first:last], from, cycle)
	}
}

// suggestions returns processes that could make the second cycle of the first.
func (ln *line) suggestions(first, second []Item) []process.Rule {
	var all []process.Rule
	if len(first) == len(second) && prefixWeights(first)[len(first)] == prefixWeights(second)[len(second)] {
		for _, p := range orderChanges(first, second) {
			if p.Kind != process.Retrograde || ln.strike == Hold {
				all = append(all, p)
			}
		}
	}
	if ln.strike == Short { // turned short strokes come late in their groups
		all = append(all, process.Rule{Kind: process.Retrograde})
	}
	return append(all, growths(first, second)...)
}

// countBefore counts the hits before a moment.
func countBefore(hits []Hit, to int64) int {
	return sort.Search(len(hits), func(i int) bool { return hits[i].At >= to })
}

// repeatsFirst reports whether cycle k (from 0) has the onsets of the first and no
// others.
func (ln *line) repeatsFirst(count, k int, length int64) bool {
	if (k+1)*count > len(ln.hits) {
		return false
	}
	for i := range count {
		if ln.hits[k*count+i].At != ln.hits[i].At+int64(k)*length {
			return false
		}
	}
	next := (k + 1) * count
	return next == len(ln.hits) || ln.hits[next].At >= ln.lead+int64(k+1)*length
}

func sameLengths(a, b []Hit) bool {
	return slices.EqualFunc(a, b, func(a, b Hit) bool { return a.Length == b.Length })
}

// shifts returns by how much the first cycle's onsets must be moved inside the length to
// become the second's, which begins so many pulses later: the smallest moves first, at most
// mostTurns. Onsets that are moved keep their distances, which are compared as a rotation.
func shifts(first, second []Hit, apart, length int64) []int64 {
	if distanceWeight(first, length) != distanceWeight(second, length) {
		return nil
	}
	var moves []int64
	for _, j := range rotations(distances(first, length), distances(second, length)) { // second begins with hit j of first
		if by := shorterMove(beat.Mod(second[0].At-apart-first[j].At, length), length); by != 0 {
			moves = append(moves, by)
		}
	}
	slices.SortFunc(moves, func(a, b int64) int { return cmp.Compare(max(a, -a), max(b, -b)) })
	return moves[:min(len(moves), mostTurns)]
}

// distance returns how far it is from a hit of a cycle to the next, after the last to
// the first of a cycle that is the same.
func distance(hits []Hit, i int, length int64) int64 {
	if i == len(hits)-1 {
		return hits[0].At + length - hits[i].At
	}
	return hits[i+1].At - hits[i].At
}

func distances(hits []Hit, length int64) []int64 {
	all := make([]int64, len(hits))
	for i := range all {
		all[i] = distance(hits, i, length)
	}
	return all
}

// distanceWeight is the same for the same distances in any order, and hardly for others.
func distanceWeight(hits []Hit, length int64) (sum uint64) {
	for i := range hits {
		sum += mix(uint64(distance(hits, i, length)))
	}
	return sum
}

// groups returns one cycle as groups that fill its length. Short strokes are
// taken to fill the time until the next.
func (ln *line) groups(hits []Hit, from, length int64) []Item {
	return itemsBetween(hits, from, from+length, ln.strike == Short)
}
