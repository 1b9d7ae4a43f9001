package find

import (
	"cmp"
	"slices"

	"tieover/score/process"
)

// cycles plays a loop's cycles one after another, without end. It does not know the list,
// so that what it plays is a prediction.
type cycles struct {
	process.Shape // of the current cycle; of no pulses when all groups are used up
	loop          *Stretch
	st            *process.State
	spent         bool // a growth has come to its end, if only before processes started over
}

func newCycles(s *Stretch) *cycles {
	groups := make([]process.Group, len(s.Groups))
	for i, item := range s.Groups {
		groups[i] = process.Group{Size: int(item.Size), Spec: i + 1, Blank: item.Blank}
	}
	c := &cycles{loop: s, st: process.New([][]process.Group{groups}, s.Process)}
	c.Shape = c.st.Shape(0)
	return c
}

// step goes on to the next cycle.
func (c *cycles) step() {
	if int64(c.st.Passes()) == c.loop.Reset {
		c.st.Reset()
	} else {
		c.st.Step()
		_, spent := c.st.Spent()
		c.spent = c.spent || spent
	}
	c.Shape = c.st.Shape(0)
}

// clone returns one that goes on by itself from here.
func (c *cycles) clone() *cycles {
	next := *c
	next.st = c.st.Clone()
	return &next
}

func newItem(g process.Group) Item { return Item{int64(g.Size), g.Blank} }

// Cycle is one cycle as it is played, a shift not applied.
type Cycle struct {
	Groups []Item
	Orders []int // of each group: how many sounding ones come before it in spec order
	Length int64 // pulses
}

// FirstCycles plays so many cycles.
func (s *Stretch) FirstCycles(n int64) []Cycle {
	all := make([]Cycle, n)
	c := newCycles(s)
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
func (s *Stretch) strokeIn(group, size int64, backwards bool) (at, length int64) {
	switch {
	case s.Strike != Short:
		return group, size
	case backwards:
		return group + size - 1, 1
	}
	return group, 1
}

// Stroke is one attack that a loop predicts.
type Stroke struct {
	At, Length int64 // pulses from the start of the list
	Order      int   // among the attacks of its cycle, in spec order, from 0
	Cycle      int   // from 0
}

// Strokes plays the loop until a moment: every attack before it, in order,
// none lasting past it. yield returns false to stop. The results are how many cycles
// began, how many pulses of the last there are, 0 if it is complete, and whether a
// growth came to its end, which is known only of what was played to the end.
func (s *Stretch) Strokes(until int64, yield func(Stroke) bool) (cycles int, rest int64, spent bool) {
	switch {
	case s.Melody != nil:
		cycles, rest = s.Melody.play(s.At, s.Groups[0].Size, until, yield)
		return cycles, rest, false
	case s.Has(process.Shift):
		return s.playShifted(until, yield)
	}
	c := newCycles(s)
	now, cut := s.At, int64(1)<<62
	if s.CutEvery > 0 {
		cut = s.At + s.CutEvery
	}
	for ; now < until && c.Pulses > 0; cycles++ {
		start, played := now, c.Played()
		order := orders(played)
		limit := min(until, cut)
		if rest = 0; start+s.soundingLength(played, c.Backwards) > until {
			rest = until - start
		}
		for i, g := range played {
			if now >= limit {
				break
			}
			at, length := s.strokeIn(now, int64(g.Size), c.Backwards)
			if !g.Blank && at < limit && !yield(Stroke{at, min(length, limit-at), order[i], cycles}) {
				return cycles + 1, rest, false
			}
			now += int64(g.Size)
		}
		if now >= cut {
			now, cut = cut, cut+s.CutEvery
		}
		c.step()
	}
	return cycles, rest, c.spent
}

// soundingLength returns how long a cycle is until the end of its last sound.
func (s *Stretch) soundingLength(played []process.Group, backwards bool) int64 {
	now, until := int64(0), int64(0)
	for _, g := range played {
		if !g.Blank {
			at, length := s.strokeIn(now, int64(g.Size), backwards)
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

// fits reports whether the loop predicts the hits exactly.
func (s *Stretch) fits(hits []Hit, end int64) bool {
	_, same := s.firstMismatch(hits, end)
	return same
}

// firstMismatch plays the loop beside the hits. Where they differ it returns the cycle (from
// 0) in which they first do; else it sets how many cycles the loop has, and same.
func (s *Stretch) firstMismatch(hits []Hit, end int64) (cycle int, same bool) {
	i := 0
	same = true
	cycles, rest, spent := s.Strokes(end, func(stroke Stroke) bool {
		cycle = stroke.Cycle
		same = i < len(hits) && hits[i].At == stroke.At && hits[i].Length == stroke.Length
		i++
		return same
	})
	if same = same && i == len(hits); same {
		s.Cycles, s.Rest, s.Spent = cycles, rest, spent
	}
	return cycle, same
}

// playShifted plays a cycle that moves inside its own length: what leaves at the
// end comes in at the start, and a sound rings over the edge until the next.
func (s *Stretch) playShifted(until int64, yield func(Stroke) bool) (cycles int, rest int64, spent bool) {
	var length int64
	held := Stroke{At: -1}
	give := func(before int64) bool {
		if held.At < 0 || held.At >= until {
			return true
		}
		held.Length = min(held.Length, before-held.At, until-held.At)
		return yield(held)
	}
	c := newCycles(s)
	for start := s.At; start < until && c.Pulses > 0; start += length {
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
			from, long := c.loop.strokeIn(at, int64(g.Size), c.Backwards)
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
