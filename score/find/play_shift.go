package find

import (
	"cmp"
	"slices"
)

// shifted plays a cycle that moves inside its own length: what leaves at the
// end comes in at the start, and a sound rings over the edge until the next.
func (d *Description) shifted(until int64, yield func(stroke) bool) (begun int, rest int64) {
	var length int64
	held := stroke{at: -1}
	give := func(before int64) bool {
		if held.at < 0 || held.at >= until {
			return true
		}
		held.length = min(held.length, before-held.at, until-held.at)
		return yield(held)
	}
	c := newCycles(d)
	for start := d.Lead; start < until && c.length() > 0; start += length {
		length = c.length()
		hits := c.hits(start, begun)
		for _, next := range hits {
			if !give(next.at) {
				return begun + 1, 0
			}
			held = next
		}
		begun++
		if rest = 0; len(hits) > 0 && min(held.at+held.length, start+length) > until {
			rest = until - start
		}
		c.step()
	}
	give(until)
	d.spent = c.spent
	return begun, rest
}

// hits lists the strokes of the current cycle, moved inside it.
func (c *cycles) hits(start int64, cycle int) []stroke {
	played, length, by := c.played(), c.length(), c.shape.Shift
	order := orders(played)
	var hits []stroke
	at := int64(0)
	for i, g := range played {
		if !g.Blank {
			from, long := c.d.struck(at, int64(g.Size), c.backwards())
			hits = append(hits, stroke{start + (from+by)%length, long, order[i], cycle})
		}
		at += int64(g.Size)
	}
	slices.SortFunc(hits, func(a, b stroke) int { return cmp.Compare(a.at, b.at) })
	return hits
}

// alone returns the sounds of the current cycle, begun at start, as if nothing
// came after it.
func (c *cycles) alone(start int64) []Hit {
	var all []Hit
	for _, s := range c.hits(start, 0) {
		all = append(all, Hit{At: s.at, Length: s.length})
	}
	return all
}

// nearer returns a move inside a cycle as the smaller of the two that come to
// the same: later, or earlier and so negative.
func nearer(by, length int64) int64 {
	if 2*by > length {
		return by - length
	}
	return by
}
