package analysis

import (
	"fmt"
	"slices"

	"tieover/score"
	"tieover/score/beat"
)

// candidate is a meter worth counting.
type candidate struct {
	meter score.Meter
	from  []string
}

// AsWritten is where the meters of the spec come from.
const AsWritten = "as the spec has it"

// candidates lists the section's meter, each layer's cycle, its equal splits
// and its split in two, and the greatest common divisor and least common
// multiple of the cycles. Meters that cannot be written are left out.
func candidates(s *score.Section) []candidate {
	var all candidateList
	all.add(s.Meter, AsWritten)
	var cycles []beat.Time
	for i, l := range s.Layers {
		if len(l.Patterns) != 1 || len(l.Process) > 0 {
			continue
		}
		sizes := sizesOf(l.Patterns[0])
		unit, ok := binaryUnit(l.Pulse)
		pulses := total(sizes)
		cycles = append(cycles, beat.Time(pulses)*l.Unit)
		if !ok {
			continue
		}
		name := "cycle of " + s.Layers[i].Name
		all.additive(sizes, unit, name)
		for parts := 2; parts <= 4; parts++ {
			if part := unit.Times(int64(pulses / parts)); pulses%parts == 0 && part.Cmp(shortestBar()) >= 0 {
				all.plain(part, fmt.Sprintf("%s in %d equal bars", name, parts))
			}
		}
		all.split(sizes, unit, name+" in two bars")
	}
	all.common(s.Grid, cycles)
	return all.list
}

// shortestBar is the shortest bar worth proposing.
func shortestBar() beat.Span { return beat.Of(1, 4) }

type candidateList struct{ list []candidate }

func (c *candidateList) add(m score.Meter, from string) {
	for i := range c.list {
		if c.list[i].meter.String() == m.String() {
			if !slices.Contains(c.list[i].from, from) {
				c.list[i].from = append(c.list[i].from, from)
			}
			return
		}
	}
	c.list = append(c.list, candidate{m, []string{from}})
}

// additive adds the groups as summands.
func (c *candidateList) additive(sizes []int, unit beat.Span, from string) {
	groups := make([]int, len(sizes))
	for i, n := range sizes {
		groups[i] = n * int(unit.Num())
	}
	if total(groups) <= maxCount {
		c.add(score.Meter{{Terms: []score.Term{{Groups: groups, Unit: int(unit.Den())}}}}, from)
	}
}

// maxCount is the largest number of beats in a time signature.
const maxCount = 64

// plain adds a plain signature of that length, counted in quarters or, where
// it is no whole number of them, in the longest value that it is.
func (c *candidateList) plain(length beat.Span, from string) {
	if sig, ok := plainOf(length); ok {
		c.add(score.Meter{sig}, from)
	}
}

func plainOf(length beat.Span) (score.Signature, bool) {
	for unit := int64(4); unit <= 128; unit *= 2 {
		n, whole := length.Times(unit).IsWhole()
		if whole && n <= maxCount {
			return score.PlainSignature(int(n), int(unit)), true
		}
	}
	return score.Signature{}, false
}

// split adds the alternation of two bars that divides the cycle at the group
// start nearest to its middle, the earlier of two.
func (c *candidateList) split(sizes []int, unit beat.Span, from string) {
	n, at, best := total(sizes), 0, 0
	for _, g := range sizes[:len(sizes)-1] {
		at += g
		if best == 0 || max(2*at-n, n-2*at) < max(2*best-n, n-2*best) {
			best = at
		}
	}
	if best == 0 || 2*best == n {
		return // one group, or equal bars, which are listed already
	}
	a, okA := plainOf(unit.Times(int64(best)))
	b, okB := plainOf(unit.Times(int64(n - best)))
	if okA && okB {
		c.add(score.Meter{a, b}, from)
	}
}

// common adds the greatest common divisor and least common multiple of the
// cycles, if a bar can be that long.
func (c *candidateList) common(grid beat.Grid, cycles []beat.Time) {
	if len(cycles) < 2 {
		return
	}
	g, l, fits := int64(0), int64(1), true
	for _, length := range cycles {
		g = beat.GCD(g, int64(length))
		if fits {
			l, fits = beat.LCM(l, int64(length))
		}
	}
	if divisor := grid.Span(beat.Time(g)); divisor.Cmp(shortestBar()) >= 0 {
		c.plain(divisor, "common divisor of all cycles")
	}
	if fits && l < int64(grid)*4 { // a bar of at most four whole notes
		c.plain(grid.Span(beat.Time(l)), "common multiple of all cycles")
	}
}

// binaryUnit returns the length of a pulse if a time signature can count it.
func binaryUnit(p beat.Pulse) (beat.Span, bool) {
	unit := p.Span()
	den := unit.Den()
	return unit, den&(den-1) == 0 && den <= 128
}

func sizesOf(p score.Pattern) []int {
	sizes := make([]int, len(p.Groups))
	for i, item := range p.Groups {
		sizes[i] = item.Size
	}
	return sizes
}

func total(sizes []int) int {
	n := 0
	for _, s := range sizes {
		n += s
	}
	return n
}
