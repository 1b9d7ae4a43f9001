package find

import "slices"

// sized is one group while a process changes it.
type sized struct {
	Item
	spec int // from 1
}

// cycles plays the description's cycles one after another, without end. It
// does not know the list, so what it yields is a prediction.
type cycles struct {
	d      *Description
	groups []sized
	pass   int64
	shift  int64
	first  int64 // which group a cycle begins with, from 0
	spent  bool  // a growth has used up what it lived on; the groups stay
}

func newCycles(d *Description) *cycles {
	c := &cycles{d: d}
	c.reset()
	return c
}

// reset makes the next cycle the first again.
func (c *cycles) reset() {
	c.pass, c.shift, c.first = 1, 0, 0
	c.groups = make([]sized, len(c.d.Groups))
	for i, item := range c.d.Groups {
		c.groups[i] = sized{item, i + 1}
	}
}

// step makes the next cycle's state.
func (c *cycles) step() {
	if c.pass == c.d.Reset {
		c.reset()
		return
	}
	c.pass++
	for i := range c.d.Process {
		p := &c.d.Process[i]
		if p.Kind == Retrograde || (c.pass-1)%p.After != 0 {
			continue
		}
		switch p.Kind {
		case Rotate:
			c.first = mod(c.first+p.By, int64(len(c.groups)))
		case Shift:
			c.shift += p.By
		case Append:
			c.groups = append(slices.Clip(c.groups), sized{Item{Size: p.Size}, c.highest() + 1})
		case Grow:
			if !c.grow(p) {
				c.spent = true
			}
		}
	}
}

// highest returns the last number that a group of the cycle has.
func (c *cycles) highest() int {
	most := len(c.groups)
	for _, g := range c.groups {
		most = max(most, g.spec)
	}
	return most
}

// grow lets the target take from the giver, and from those after it when it
// has too little.
func (c *cycles) grow(p *Process) bool {
	groups := slices.Clone(c.groups)
	target := slices.IndexFunc(groups, func(g sized) bool { return g.spec == p.Group })
	if target < 0 {
		return false
	}
	if p.By < 0 {
		return c.shrink(p, groups, target)
	}
	if need := p.By; p.From > 0 {
		first := max(0, slices.IndexFunc(groups, func(g sized) bool { return g.spec >= p.From }))
		for k := range groups {
			giver := (first + k) % len(groups)
			if giver == target {
				continue
			}
			gift := min(need, groups[giver].Size)
			groups[giver].Size -= gift
			need -= gift
		}
		if need > 0 {
			return false
		}
	}
	groups[target].Size += p.By
	return c.keep(groups)
}

// shrink takes what is left of the target, at most as much as is asked.
func (c *cycles) shrink(p *Process, groups []sized, target int) bool {
	gift := min(-p.By, groups[target].Size)
	groups[target].Size -= gift
	if p.From > 0 {
		to := slices.IndexFunc(groups, func(g sized) bool { return g.spec == p.From })
		if to < 0 {
			return false
		}
		groups[to].Size += gift
	}
	return c.keep(groups)
}

// keep makes the groups the cycle's, without those that are used up. ok is
// false when none is left.
func (c *cycles) keep(groups []sized) (ok bool) {
	left := slices.DeleteFunc(groups, func(g sized) bool { return g.Size == 0 })
	if len(left) == 0 {
		return false
	}
	for k := range c.groups { // where a cycle began, or the next group that is left
		spec := c.groups[(c.first+int64(k))%int64(len(c.groups))].spec
		if i := slices.IndexFunc(left, func(g sized) bool { return g.spec == spec }); i >= 0 {
			c.first = int64(i)
			break
		}
	}
	c.groups = left
	return true
}

// backwards reports whether the current cycle is turned round.
func (c *cycles) backwards() bool {
	turned := false
	for _, p := range c.d.Process {
		if p.Kind == Retrograde && c.pass%p.After == 0 {
			turned = !turned
		}
	}
	return turned
}

// struck returns where in a group its attack is and how long it lasts. A short
// stroke comes at the end of its group when the cycle is turned round, after
// the silence that otherwise follows it.
func (d *Description) struck(group, size int64, backwards bool) (at, length int64) {
	switch {
	case d.Strike != Short:
		return group, size
	case backwards:
		return group + size - 1, 1
	}
	return group, 1
}

// played returns the groups of the current cycle in played order, a shift not
// applied.
func (c *cycles) played() []sized {
	groups := c.groups
	if r := c.first; r > 0 {
		groups = append(slices.Clone(groups[r:]), groups[:r]...)
	}
	if c.backwards() {
		groups = slices.Clone(groups)
		slices.Reverse(groups)
	}
	return groups
}

// stroke is one attack that a description predicts.
type stroke struct {
	at, length int64
	order      int // among the attacks of its cycle, in spec order
	cycle      int // from 0
}

// strokes plays the description until a moment: every attack before it, in
// order, none lasting past it. yield returns false to stop. The result is how
// many cycles began and how much of the last there is, 0 if it is complete.
func (d *Description) strokes(until int64, yield func(stroke) bool) (begun int, rest int64) {
	if d.has(Shift) {
		return d.shifted(until, yield)
	}
	c := newCycles(d)
	now, cut := d.Lead, int64(1)<<62
	if d.CutEvery > 0 {
		cut = d.Lead + d.CutEvery
	}
	for ; now < until; begun++ {
		start, played := now, c.played()
		order := orders(played)
		limit := min(until, cut)
		if rest = 0; start+d.sounding(played, c.backwards()) > until {
			rest = until - start
		}
		for i, g := range played {
			if now >= limit {
				break
			}
			at, length := d.struck(now, g.Size, c.backwards())
			if !g.Blank && at < limit && !yield(stroke{at, min(length, limit-at), order[i], begun}) {
				return begun + 1, rest
			}
			now += g.Size
		}
		if now >= cut {
			now, cut = cut, cut+d.CutEvery
		}
		c.step()
	}
	d.spent = c.spent
	return begun, rest
}

// sounding returns how long a cycle is until the end of its last sound.
func (d *Description) sounding(played []sized, backwards bool) int64 {
	now, until := int64(0), int64(0)
	for _, g := range played {
		if !g.Blank {
			at, length := d.struck(now, g.Size, backwards)
			until = at + length
		}
		now += g.Size
	}
	return until
}

// orders numbers the sounding groups in spec order, so that a series dealt to
// the cycle goes along when it is turned.
func orders(played []sized) []int {
	most := 0
	for _, g := range played {
		most = max(most, g.spec)
	}
	sounding := make([]bool, most+1)
	for _, g := range played {
		sounding[g.spec] = !g.Blank
	}
	place, n := make([]int, most+1), 0
	for spec, sounds := range sounding {
		if place[spec] = n; sounds {
			n++
		}
	}
	order := make([]int, len(played))
	for i, g := range played {
		order[i] = place[g.spec]
	}
	return order
}

// fits reports whether the description predicts the hits exactly.
func (d *Description) fits(hits []Hit, end int64) bool {
	_, same := d.agrees(hits, end)
	return same
}

// agrees plays the description beside the hits. When they part, cycle is the
// one (from 0) in which they do.
func (d *Description) agrees(hits []Hit, end int64) (cycle int, same bool) {
	i := 0
	same = true
	d.strokes(end, func(s stroke) bool {
		cycle = s.cycle
		same = i < len(hits) && hits[i].At == s.at && hits[i].Length == s.length
		i++
		return same
	})
	return cycle, same && i == len(hits)
}
