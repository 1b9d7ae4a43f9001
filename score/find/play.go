package find

import (
	"cmp"
	"slices"

	"tieover/score/process"
)

// cycles plays a description's cycles one after another, without end. It does not know
// the list, so that what it plays is a prediction.
type cycles struct {
	process.Shape // of the current cycle; of no pulses when all groups are used up
	d             *Description
	st            *process.State
	spent         bool // a growth has come to its end, if only before processes started over
}

func newCycles(d *Description) *cycles {
	groups := make([]process.Group, len(d.Groups))
	for i, item := range d.Groups {
		groups[i] = process.Group{Size: int(item.Size), Spec: i + 1, Blank: item.Blank}
	}
	c := &cycles{d: d, st: process.New([][]process.Group{groups}, d.Process)}
	c.Shape = c.st.Shape(0)
	return c
}

// step goes on to the next cycle.
func (c *cycles) step() {
	if int64(c.st.Passes()) == c.d.Reset {
		c.st.Reset()
	} else {
		c.st.Step()
		_, spent := c.st.Spent()
		c.spent = c.spent || spent
	}
	c.Shape = c.st.Shape(0)
}

// clone returns one that goes on by itself from here.
func (c *cycles) clone() *cycles { return &cycles{d: c.d, st: c.st.Clone(), Shape: c.Shape} }

func newItem(g process.Group) Item { return Item{int64(g.Size), g.Blank} }

// Cycle is one cycle as it is played, a shift not applied.
type Cycle struct {
	Groups []Item
	Orders []int // of each group: how many sounding ones come before it in spec order
	Length int64 // pulses
}

// FirstCycles plays so many cycles.
func (d *Description) FirstCycles(n int64) []Cycle {
	all := make([]Cycle, n)
	c := newCycles(d)
	for k := range all {
		played := c.Played()
		all[k] = Cycle{Groups: make([]Item, len(played)), Orders: orders(played), Length: c.Pulses}
		for i, g := range played {
			all[k].Groups[i] = newItem(g)
		}
		c.step()
	}
	return all
}

// strokeIn returns where in a group its attack is and how long it lasts. A short
// stroke comes at the end of its group when the cycle is turned round, after
// the silence that otherwise follows it.
func (d *Description) strokeIn(group, size int64, backwards bool) (at, length int64) {
	switch {
	case d.Strike != Short:
		return group, size
	case backwards:
		return group + size - 1, 1
	}
	return group, 1
}

// Stroke is one attack that a description predicts.
type Stroke struct {
	At, Length int64 // pulses from the start of the list
	Order      int   // among the attacks of its cycle, in spec order, from 0
	Cycle      int   // from 0
}

// Strokes plays the description until a moment: every attack before it, in order,
// none lasting past it. yield returns false to stop. The results are how many cycles
// began, how many pulses of the last there are, 0 if it is complete, and whether a
// growth came to its end, which is known only of what was played to the end.
func (d *Description) Strokes(until int64, yield func(Stroke) bool) (cycles int, rest int64, spent bool) {
	switch {
	case d.Melody != nil:
		cycles, rest = d.Melody.play(d.Lead, d.Groups[0].Size, until, yield)
		return cycles, rest, false
	case d.Has(process.Shift):
		return d.playShifted(until, yield)
	}
	c := newCycles(d)
	now, cut := d.Lead, int64(1)<<62
	if d.CutEvery > 0 {
		cut = d.Lead + d.CutEvery
	}
	for ; now < until && c.Pulses > 0; cycles++ {
		start, played := now, c.Played()
		order := orders(played)
		limit := min(until, cut)
		if rest = 0; start+d.soundingLength(played, c.Backwards) > until {
			rest = until - start
		}
		for i, g := range played {
			if now >= limit {
				break
			}
			at, length := d.strokeIn(now, int64(g.Size), c.Backwards)
			if !g.Blank && at < limit && !yield(Stroke{at, min(length, limit-at), order[i], cycles}) {
				return cycles + 1, rest, false
			}
			now += int64(g.Size)
		}
		if now >= cut {
			now, cut = cut, cut+d.CutEvery
		}
		c.step()
	}
	return cycles, rest, c.spent
}

// soundingLength returns how long a cycle is until the end of its last sound.
func (d *Description) soundingLength(played []process.Group, backwards bool) int64 {
	now, until := int64(0), int64(0)
	for _, g := range played {
		if !g.Blank {
			at, length := d.strokeIn(now, int64(g.Size), backwards)
			until = at + length
		}
		now += int64(g.Size)
	}
	return until
}

// orders numbers the sounding groups in spec order: a series dealt to the cycle turns with
// it.
func orders(played []process.Group) []int {
	most := 0
	for _, g := range played {
		most = max(most, g.Spec)
	}
	sounding := make([]bool, most+1)
	for _, g := range played {
		sounding[g.Spec] = !g.Blank
	}
	place, n := make([]int, most+1), 0
	for spec, sounds := range sounding {
		if place[spec] = n; sounds {
			n++
		}
	}
	order := make([]int, len(played))
	for i, g := range played {
		order[i] = place[g.Spec]
	}
	return order
}

// fits reports whether the description predicts the hits exactly.
func (d *Description) fits(hits []Hit, end int64) bool {
	_, same := d.firstMismatch(hits, end)
	return same
}

// firstMismatch plays the description beside the hits. Where they differ it returns the
// cycle (from 0) in which they first do; else it sets the description's cycles, and same.
func (d *Description) firstMismatch(hits []Hit, end int64) (cycle int, same bool) {
	i := 0
	same = true
	cycles, rest, spent := d.Strokes(end, func(s Stroke) bool {
		cycle = s.Cycle
		same = i < len(hits) && hits[i].At == s.At && hits[i].Length == s.Length
		i++
		return same
	})
	if same = same && i == len(hits); same {
		d.Cycles, d.Rest, d.Spent = cycles, rest, spent
	}
	return cycle, same
}

// playShifted plays a cycle that moves inside its own length: what leaves at the
// end comes in at the start, and a sound rings over the edge until the next.
func (d *Description) playShifted(until int64, yield func(Stroke) bool) (cycles int, rest int64, spent bool) {
	var length int64
	held := Stroke{At: -1}
	give := func(before int64) bool {
		if held.At < 0 || held.At >= until {
			return true
		}
		held.Length = min(held.Length, before-held.At, until-held.At)
		return yield(held)
	}
	c := newCycles(d)
	for start := d.Lead; start < until && c.Pulses > 0; start += length {
		length = c.Pulses
		hits := c.hits(start, cycles)
		for _, next := range hits {
			if !give(next.At) {
				return cycles + 1, 0, false
			}
			held = next
		}
		cycles++
		if rest = 0; len(hits) > 0 && min(held.At+held.Length, start+length) > until {
			rest = until - start
		}
		c.step()
	}
	give(until)
	return cycles, rest, c.spent
}

// hits lists the strokes of the current cycle, moved inside it.
func (c *cycles) hits(start int64, cycle int) []Stroke {
	played, length, by := c.Played(), c.Pulses, c.Shift
	order := orders(played)
	var hits []Stroke
	at := int64(0)
	for i, g := range played {
		if !g.Blank {
			from, long := c.d.strokeIn(at, int64(g.Size), c.Backwards)
			hits = append(hits, Stroke{start + (from+by)%length, long, order[i], cycle})
		}
		at += int64(g.Size)
	}
	slices.SortFunc(hits, func(a, b Stroke) int { return cmp.Compare(a.At, b.At) })
	return hits
}

// loneHits returns the sounds of the current cycle, from start on, as if nothing came
// after it.
func (c *cycles) loneHits(start int64) []Hit {
	var all []Hit
	for _, s := range c.hits(start, 0) {
		all = append(all, Hit{At: s.At, Length: s.Length})
	}
	return all
}

// shorterMove returns a move inside a cycle as the smaller of the two that do the same:
// later, or earlier and so negative.
func shorterMove(by, length int64) int64 {
	if 2*by > length {
		return by - length
	}
	return by
}
