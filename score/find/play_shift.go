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
	for start := d.Lead; start < until; start += length {
		length = sumOf(c.groups)
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
	played, length := c.played(), sumOf(c.groups)
	order := orders(played)
	by := ((c.shift % length) + length) % length
	var hits []stroke
	at := int64(0)
	for i, g := range played {
		if !g.Blank {
			from, long := c.d.struck(at, g.Size, c.backwards())
			hits = append(hits, stroke{start + (from+by)%length, long, order[i], cycle})
		}
		at += g.Size
	}
	slices.SortFunc(hits, func(a, b stroke) int { return cmp.Compare(a.at, b.at) })
	return hits
}

func sumOf(groups []sized) int64 {
	sum := int64(0)
	for _, g := range groups {
		sum += g.Size
	}
	return sum
}
