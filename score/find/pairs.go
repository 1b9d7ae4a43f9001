package find

import "slices"

// longestPaired is the most groups that a cycle with two processes is looked
// for.
const longestPaired = 64

// pairs suggests two processes at once for a cycle of m groups of which the
// first ones are alike and the next is second: a group grows while the cycle is
// started elsewhere; or a cycle that changes is also turned round.
func (ln *line) pairs(first, second []Item, alike int64, try func(...Process)) {
	m := len(first)
	for r := 1; r < m; r++ {
		back := append(slices.Clone(second[m-r:]), second[:m-r]...) // as it was before it was started r groups on
		for _, p := range growths(first, back) {
			p.After = alike
			by := int64(r)
			if 2*r > m {
				by -= int64(m)
			}
			try(p, Process{Kind: Rotate, By: by, After: alike})
		}
	}
	turned := slices.Clone(second)
	slices.Reverse(turned)
	for _, p := range append(turns(first, turned), growths(first, turned)...) {
		if p.Kind != Retrograde {
			p.After = alike
			try(p, Process{Kind: Retrograde, After: alike + 1})
		}
	}
}

// further suggests what else happens to a description whose prediction fails in
// a cycle (from 0): a second process that sets in there, or that the first
// starts over.
func (ln *line) further(d *Description, cycle int, try func(Process), again func(after int64)) {
	for _, after := range []int{cycle, cycle - 1} {
		if after >= fewestCycles {
			again(int64(after))
		}
	}
	if cycle < 2 || len(d.Groups) > longestPaired {
		return
	}
	c := newCycles(d)
	from := 0
	for range cycle {
		from += len(c.groups)
		c.step()
	}
	to := from + len(c.groups)
	if to > len(ln.items) {
		return
	}
	want, got := c.played(), slices.Clone(ln.items[from:to])
	if c.backwards() {
		want = slices.Clone(want)
		slices.Reverse(want)
		slices.Reverse(got)
	}
	items := make([]Item, len(want))
	for i, g := range want {
		items[i] = g.Item
	}
	for _, p := range append(turns(items, got), growths(items, got)...) {
		switch p.After = int64(cycle); p.Kind {
		case Retrograde:
			p.After++
		case Grow: // groups are called by their place in the first cycle
			p.Group = want[p.Group-1].spec
			if p.From > 0 {
				p.From = want[p.From-1].spec
			}
			if max(p.Group, p.From) > len(d.Groups) {
				continue // it has been appended: a spec cannot name it
			}
		}
		try(p)
	}
}

// offer keeps a description if it fits. If it fits for some cycles only, what
// may be added to it is tried.
func (ln *line) offer(d *Description, keep func(*Description)) {
	d.Lead, d.Strike = ln.lead, ln.strike
	if d.tooSlow(ln.end - ln.lead) {
		return
	}
	cycle, same := d.agrees(ln.hits, ln.end)
	if same {
		keep(d)
		return
	}
	more := func(p Process) {
		if !d.has(p.Kind) {
			ln.offerAgain(&Description{Groups: d.Groups, Process: append(slices.Clone(d.Process), p)}, keep)
		}
	}
	ln.further(d, cycle, more, func(after int64) {
		keep(&Description{Groups: d.Groups, Process: d.Process, Reset: after})
	})
}

// offerAgain is offer for two processes, to which no third is added.
func (ln *line) offerAgain(d *Description, keep func(*Description)) {
	d.Lead, d.Strike = ln.lead, ln.strike
	cycle, same := d.agrees(ln.hits, ln.end)
	if same {
		for i := range d.Process {
			alone := *d
			if alone.Process = d.Process[i : i+1]; alone.fits(ln.hits, ln.end) {
				return // the other is not heard
			}
		}
		keep(d)
		return
	}
	for _, after := range []int{cycle, cycle - 1} {
		if after >= fewestCycles {
			keep(&Description{Groups: d.Groups, Process: d.Process, Reset: int64(after)})
		}
	}
}
