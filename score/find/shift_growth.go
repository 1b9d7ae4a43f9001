package find

import (
	"cmp"
	"slices"

	"tieover/score/beat"
	"tieover/score/process"
)

// unshift returns the cycle of the given length that begins at start as groups, moved
// back inside it by so many pulses; nil when the line ends before or nothing sounds.
func (ln *line) unshift(start, length, by int64) []Item {
	from, to := countBefore(ln.hits, start), countBefore(ln.hits, start+length)
	if from == to || start+length > ln.end {
		return nil
	}
	hits := slices.Clone(ln.hits[from:to])
	if last := &hits[len(hits)-1]; to < len(ln.hits) && last.At+last.Length == ln.hits[to].At {
		last.Length = length // it may have been cut by the cycle after it
	}
	for i := range hits {
		hits[i].At = start + beat.Mod(hits[i].At-start-by, length)
	}
	slices.SortFunc(hits, func(a, b Hit) int { return cmp.Compare(a.At, b.At) })
	return ln.groups(hits, start, length)
}

// suggestShift suggests that cycles move from the one predicted at start on, or from the
// next: a sound before it would then be cut.
func (ln *line) suggestShift(c *cycles, start int64, cycle int) []process.Rule {
	var all []process.Rule
	for range 2 {
		length := c.Pulses
		from, to := countBefore(ln.hits, start), countBefore(ln.hits, start+length)
		want := c.loneHits(start)
		if len(want) == 0 || len(want) != to-from || start+length > ln.end {
			return all
		}
		for _, by := range shifts(want, ln.hits[from:to], 0, length) {
			all = append(all, process.Rule{Kind: process.Shift, By: by, After: cycle})
		}
		c = c.clone()
		c.step()
		start, cycle = start+length, cycle+1
	}
	return all
}

// shiftAndGrowth offers a cycle that moves inside its length while a group of it grows,
// both for the first time in the cycle that begins at start.
func (ln *line) shiftAndGrowth(first []Hit, start, length int64, alike int) {
	m := len(first)
	if m < 2 || m > longestPaired || 2*int64(alike)*length+first[m-1].At >= ln.end {
		return // too short to hear two changes
	}
	groups := ln.groups(first, ln.lead, length)
	if kind+valuesBits(groups) > ln.mostBits {
		return
	}
	ways := [][]Hit{first}
	if ln.strike == Hold {
		ways = append(ways, reverse(first, ln.lead, length))
	}
	for turned, first := range ways {
		ln.moves(first, start, length, func(by, longer int64) {
			ln.offerMoved(groups, start, length+longer, by, alike, turned > 0)
			if longer != 0 { // to be late is then another thing than to be early
				ln.offerMoved(groups, start, length+longer, by-length-longer, alike, turned > 0)
			}
		})
	}
}

// reverse returns a cycle turned round.
func reverse(hits []Hit, from, length int64) []Hit {
	turned := make([]Hit, len(hits))
	for i, h := range hits {
		turned[len(hits)-1-i] = Hit{At: from + length - (h.At - from) - h.Length, Length: h.Length}
	}
	return turned
}

// moves yields by how much the cycle at start may be moved inside its length, and be
// longer than the first, so that at most two places in it have moved. Any of its attacks may
// be that of the first group, so each is tried.
func (ln *line) moves(first []Hit, start, length int64, yield func(by, longer int64)) {
	m, next := len(first), ln.hits[countBefore(ln.hits, start):]
	if len(next) < m {
		return
	}
	for k := range m {
		by := next[k].At - start - (first[0].At - ln.lead)
		if by >= 2*length {
			return
		}
		for _, longer := range extensions(first, next, k, length, by) {
			if by < length+longer && onlyEdgesMoved(first, next, k, length+longer) {
				yield(by, longer)
			}
		}
	}
}

// onlyEdgesMoved reports whether the next cycle, of the given length and beginning
// with its hit k, is the first with the attacks between at most two places
// moved.
func onlyEdgesMoved(first, next []Hit, k int, length int64) bool {
	changes, before := 0, int64(0)
	for i, h := range first {
		at := next[(k+i)%len(first)].At - next[k].At
		if at < 0 {
			at += length
		}
		if off := at - (h.At - first[0].At); off != before {
			if changes++; changes > 2 {
				return false
			}
			before = off
		}
	}
	return true
}

// offerMoved offers the growths that make the cycle at start, moved by so many
// pulses and perhaps turned round, of the first groups.
func (ln *line) offerMoved(groups []Item, start, length, by int64, alike int, turned bool) {
	next := ln.unshift(start, length, by)
	if next == nil || beat.Mod(by, length) == 0 {
		return
	}
	if length == total(groups) {
		by = shorterMove(beat.Mod(by, length), length)
	}
	ps := []process.Rule{{Kind: process.Shift, By: by, After: alike}}
	if turned {
		slices.Reverse(next)
		ps = append(ps, process.Rule{Kind: process.Retrograde, After: alike + 1})
	}
	for _, p := range growths(groups, next) {
		p.After = alike
		ln.offer(groups, append(slices.Clone(ps), p)...)
	}
}

// extensions suggests by how much the next cycle, moved by so many pulses so that its first
// attack is hit k, is longer than the first: not at all; or as the attacks after that
// show; or as those before it show, which come round from its end; or as the cycle after it
// shows.
func extensions(first, next []Hit, k int, length, by int64) []int64 {
	all := []int64{0}
	m := len(first)
	if len(next) == m {
		return all
	}
	add := func(n int64) {
		if n != 0 && n > -length && n < length && !slices.Contains(all, n) {
			all = append(all, n)
		}
	}
	place := func(i int) int64 { return first[i].At - first[0].At }
	for i := 1; i < m-k; i++ {
		if longer := next[k+i].At - next[k].At - place(i); longer != 0 {
			add(longer)
			break
		}
	}
	if k > 0 {
		add(place(m-k) - length + next[k].At - next[0].At)
	}
	round := next[m].At - next[0].At
	add(round - length - by)
	add(round - length)
	return all
}
