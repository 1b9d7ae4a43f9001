package bar

import (
	"iter"
	"sort"

	"tieover/layout/sheet"
	"tieover/score/beat"
)

// tupletAt makes the tuplet of a parts in [from, to). ok is false if something
// inside does not fall on its parts, or nothing inside needs a tuplet.
func (p *packer) tupletAt(from, to beat.Time, a int) (*sheet.Tuplet, cost, bool) {
	length := to - from
	whole, ok := p.value(length, 1, 1)
	if !ok || whole.Dots > 1 {
		return nil, cost{}, false
	}
	normal := normalOf(a, whole.Dots == 1)
	unit, ok := p.value(length, 1, normal)
	if !ok {
		return nil, cost{}, false
	}
	needed := false
	first := sort.Search(len(p.inside), func(i int) bool { return p.inside[i] > from })
	for _, t := range p.inside[first:] {
		if to <= t {
			break
		}
		past := (t - from) * beat.Time(a)
		finest := length
		for k := 0; k < 3 && length <= p.length && finest%2 == 0; k++ {
			finest /= 2 // only a container of the layer's own length has smaller notes
		}
		if past%finest != 0 {
			return nil, cost{}, false
		}
		needed = needed || isPowerOfTwo(a) || p.odd(t) > 1
	}
	if !needed {
		return nil, cost{}, false
	}
	t := &sheet.Tuplet{Actual: a, Normal: normal, Unit: unit, Bracket: true, ShowNumber: p.numbers}
	t.ShowRatio = whole.Dots == 1 || a != 3 && a != 5 && a != 6 && a != 7
	c, ok := p.tupletCost(container{from, to, t})
	return t, c, ok
}

func isPowerOfTwo(n int) bool { return n&(n-1) == 0 }

// normalOf returns the simplest number that a parts take the time of: the
// largest power of two below a in a simple container, in a dotted one the
// largest of 3, 6, 12 below it, and 3 for a duplet (9d of the common tables).
func normalOf(a int, dotted bool) int {
	n := 1
	if dotted {
		n = 3
	}
	for 2*n < a {
		n *= 2
	}
	return n
}

// tupletCost counts what a tuplet costs; ok is false if a piece inside has no signs.
func (p *packer) tupletCost(tile container) (c cost, ok bool) {
	c = cost{tuplets: 1, ties: p.tiedAt(tile.to)}
	length := tile.to - tile.from
	switch {
	case length < p.length:
		c[halves] = 1
	case length > p.length:
		c[joins] = 1
	}
	if tile.from%length != 0 {
		c[astray] = 1
	}
	for pc := range p.within(tile.from, tile.to) {
		ends, ok := p.tupletEnds(tile, pc, nil)
		if !ok {
			return cost{}, false
		}
		c[signs] += len(ends)
	}
	return c, true
}

// plainCost counts what ordinary notes in [from, to) cost; ok is false if a
// moment inside needs a tuplet.
func (p *packer) plainCost(from, to beat.Time) (c cost, ok bool) {
	c = cost{ties: p.tiedAt(to)}
	for pc := range p.within(from, to) {
		if !p.plain(pc.from) || !p.plain(pc.to) {
			return cost{}, false
		}
		c[signs]++
		if !p.single(pc.to - pc.from) {
			c[signs]++
		}
	}
	return c, true
}

// tiedAt is 1 if a sound goes on over the place inside the bar.
func (p *packer) tiedAt(at beat.Time) int {
	i := sort.Search(len(p.pieces), func(i int) bool { return p.pieces[i].to > at })
	if i < len(p.pieces) && p.pieces[i].segment >= 0 && p.pieces[i].from < at {
		return 1
	}
	return 0
}

// within yields the pieces of [from, to), cut to it.
func (p *packer) within(from, to beat.Time) iter.Seq[piece] {
	return func(yield func(piece) bool) {
		first := sort.Search(len(p.pieces), func(i int) bool { return p.pieces[i].to > from })
		for _, pc := range p.pieces[first:] {
			if to <= pc.from || !yield(piece{max(pc.from, from), min(pc.to, to), pc.segment}) {
				break
			}
		}
	}
}
