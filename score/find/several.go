package find

import (
	"slices"

	"tieover/score/beat"
	"tieover/score/process"
)

// longestPaired bounds the groups of a cycle with several processes.
const longestPaired = 64

// mostProcesses bounds the processes of a description.
const mostProcesses = 3

// severalAtOnce offers several processes that set in together, after so many cycles that
// are like the first; rest begins with the cycle in which they do. A group grows, or one is
// appended, while the cycle starts elsewhere or is turned round, or both.
func (ln *line) severalAtOnce(first, rest []Item, alike int) {
	m := len(first)
	retrograde := process.Rule{Kind: process.Retrograde, After: alike + 1}
	offer := func(turned bool, ps ...process.Rule) {
		for i := range ps {
			ps[i].After = alike
		}
		if turned {
			ps = append(ps, retrograde)
		}
		ln.offer(first, ps...)
	}
	for _, n := range []int{m - 1, m, m + 1} { // groups of the next cycle: one is used up, or appended
		if n < 1 || len(rest) < n || n < m && total(rest[:n]) != total(first) {
			continue
		}
		for _, turned := range []bool{false, true} {
			next := rest[:n]
			if turned {
				next = slices.Clone(next)
				slices.Reverse(next)
				if p, ok := rotation(first, next); ok {
					offer(true, p)
				}
			}
			for r := range n {
				if r == 0 && !turned || !isNearlyAlike(first, next, n-r) {
					continue // a process by itself, or another cycle
				}
				for _, p := range lengthChanges(first, append(slices.Clone(next[n-r:]), next[:n-r]...)) {
					if r == 0 {
						offer(turned, p)
					} else {
						offer(turned, p, process.Rule{Kind: process.Rotate, By: shorterMove(int64(r), int64(n))})
					}
				}
			}
		}
	}
}

// isNearlyAlike reports whether the next cycle, read from its item k on, can be the first
// with a group grown or appended: at most two of its items differ, or none before the one
// that is appended. With fewer items than the first it always may.
func isNearlyAlike(first, next []Item, k int) bool {
	m, n := len(first), len(next)
	if n < m {
		return true
	}
	allowed := 2 * (m + 1 - n)
	for i, item := range first {
		if next[(i+k)%n] != item {
			if allowed--; allowed < 0 {
				return false
			}
		}
	}
	return true
}

// offer keeps the groups with the rules if they fit. If they fit for some cycles only,
// what may be added is tried: another process, or that all starts over.
func (ln *line) offer(groups []Item, rules ...process.Rule) {
	slices.SortStableFunc(rules, func(a, b process.Rule) int { return int(a.Kind - b.Kind) })
	s := Stretch{Groups: groups, Process: rules, At: ln.lead, Strike: ln.strike}
	if s.isTooSlow(ln.end - ln.lead) {
		return
	}
	cycle, same := s.firstMismatch(ln.hits, ln.end)
	if same {
		if !ln.isRedundant(&s) {
			ln.try(s)
		}
		return
	}
	for after := cycle - 1; after <= cycle+1; after++ { // a last sound may be cut by the cycle after, or agree by chance
		if after >= fewestCycles {
			ln.try(Stretch{Groups: groups, Process: rules, Reset: int64(after)})
		}
	}
	if len(rules) == mostProcesses {
		return
	}
	for _, p := range ln.suggestMore(&s, cycle) {
		if !s.Has(p.Kind) {
			ln.offer(groups, append(slices.Clone(rules), p)...)
		}
	}
}

// isRedundant reports whether the loop fits without some of its processes, too: one that
// nobody hears, or two that cancel, as to start a group further on and to turn round 3+2.
func (ln *line) isRedundant(s *Stretch) bool {
	if len(s.Process) == 1 {
		return false
	}
	for i := range s.Process {
		less := *s
		less.Process = slices.Delete(slices.Clone(s.Process), i, i+1)
		if less.fits(ln.hits, ln.end) || ln.isRedundant(&less) {
			return true
		}
	}
	return false
}

// suggestMore suggests processes that set in where a loop first fails: in a cycle counted
// from 0.
func (ln *line) suggestMore(s *Stretch, cycle int) []process.Rule {
	late := Stretch{Groups: s.Groups, Process: append(slices.Clip(s.Process), process.Rule{Kind: process.Rotate, After: cycle})}
	if cycle < 2 || len(s.Groups) > longestPaired || late.isTooSlow(ln.end-ln.lead) {
		return nil
	}
	c, start, item := newCycles(s), ln.lead, 0
	for range cycle {
		start, item = start+c.Pulses, item+len(c.Groups)
		c.step()
	}
	var all []process.Rule
	if !s.Has(process.Shift) {
		all = ln.suggestShift(c, start, cycle)
	}
	for _, got := range ln.candidateCycles(c, start, item) {
		all = append(all, c.changes(got, cycle)...)
	}
	return all
}

// changes suggests processes that make the current cycle, which is number `cycle` from 0,
// the groups that the line has in its place.
func (c *cycles) changes(got []Item, cycle int) []process.Rule {
	want := c.Played()
	if c.Backwards {
		want = slices.Clone(want)
		slices.Reverse(want)
		slices.Reverse(got)
	}
	items := make([]Item, len(want))
	for i, g := range want {
		items[i] = newItem(g)
	}
	var all []process.Rule
	for _, p := range append(orderChanges(items, got), growths(items, got)...) {
		if p = delay(p, cycle); p.Kind == process.Grow { // a rule counts groups in the first cycle
			p.Group = want[p.Group-1].Spec
			if p.From > 0 {
				p.From = want[p.From-1].Spec
			}
			if max(p.Group, p.From) > len(c.loop.Groups) {
				continue // it was appended: a spec cannot name it
			}
		}
		all = append(all, p)
	}
	return all
}

// candidateCycles returns the groups that the line may have in place of a predicted cycle,
// which begins at a moment and with an item. Where cycles move inside their length, how
// long this one is depends on what has grown.
func (ln *line) candidateCycles(c *cycles, start int64, item int) [][]Item {
	if c.Pulses == 0 {
		return nil
	}
	if !c.loop.Has(process.Shift) {
		if to := item + len(c.Groups); to <= len(ln.items) {
			return [][]Item{slices.Clone(ln.items[item:to])}
		}
		return nil
	}
	var all [][]Item
	var first []Hit
	length, now := c.Pulses, ln.lead
	for _, g := range c.Played() {
		if !g.Blank {
			first = append(first, Hit{At: now, Length: int64(g.Size)})
		}
		now += int64(g.Size)
	}
	ln.moves(first, start, length, func(by, longer int64) {
		if beat.Mod(by-c.st.Moved(), length+longer) != 0 {
			return
		}
		if got := ln.unshift(start, length+longer, by); got != nil {
			all = append(all, got)
		}
	})
	return all
}
