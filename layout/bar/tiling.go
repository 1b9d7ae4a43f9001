package bar

import (
	"slices"

	"tieover/layout/sheet"
	"tieover/score/beat"
)

// cost orders the ways to write a bar by how many it has of these, the first first.
type cost [joins + 1]int

const (
	ties   = iota // made by containers
	signs         // notes and rests
	halves        // pieces of halved containers
	astray        // containers off their own grid
	tuplets
	joins // joined containers
)

func (c cost) plus(d cost) cost {
	for i := range c {
		c[i] += d[i]
	}
	return c
}

func (c cost) less(d cost) bool { return slices.Compare(c[:], d[:]) < 0 }

// tiling looks for the cheapest containers from a bar's start to its end: a
// shortest path over the places where containers may meet.
type tiling struct {
	*packer
	step    beat.Time
	lengths []beat.Time // of tuplets
	ratios  []int
	nodes   [][2]node // by place; each for plain time or for a tuplet (or the start) before it
}

// node is the cheapest way found to a place.
type node struct {
	reached bool
	cost    cost
	place   int // where its last container begins
	kind    int // what ends there
	tuplet  *sheet.Tuplet
}

// What ends at a place. Plain time follows only a tuplet or the bar's start.
const (
	plainEnds = iota
	tupletEnds
)

func newTiling(p *packer) *tiling {
	t := &tiling{packer: p, ratios: p.ratios()}
	t.step, t.lengths = p.candidates()
	t.nodes = make([][2]node, p.Length/t.step+1)
	t.nodes[0][tupletEnds].reached = true
	return t
}

// search returns the containers; ok is false when none hold the bar.
func (t *tiling) search() (tiles []container, ok bool) {
	last := len(t.nodes) - 1
	for place := range last {
		for kind, here := range t.nodes[place] {
			if !here.reached {
				continue
			}
			if kind == tupletEnds {
				t.plainFrom(place, here.cost)
			}
			t.tupletsFrom(place, kind, here.cost)
		}
	}
	kind := plainEnds
	if a, b := t.nodes[last][plainEnds], t.nodes[last][tupletEnds]; !a.reached || b.reached && b.cost.less(a.cost) {
		kind = tupletEnds
	}
	if !t.nodes[last][kind].reached {
		return nil, false
	}
	for place := last; place > 0; {
		here := t.nodes[place][kind]
		tiles = append(tiles, container{beat.Time(here.place) * t.step, beat.Time(place) * t.step, here.tuplet})
		place, kind = here.place, here.kind
	}
	slices.Reverse(tiles)
	return tiles, true
}

// plainFrom tries plain time of every length after a tuplet or the start.
func (t *tiling) plainFrom(place int, before cost) {
	from := beat.Time(place) * t.step
	for to := place + 1; to < len(t.nodes); to++ {
		c, ok := t.plainCost(from, beat.Time(to)*t.step)
		if !ok {
			return
		}
		t.relax(to, plainEnds, node{true, before.plus(c), place, tupletEnds, nil})
	}
}

// tupletsFrom tries a tuplet of every length and ratio.
func (t *tiling) tupletsFrom(place, kind int, before cost) {
	from := beat.Time(place) * t.step
	for _, length := range t.lengths {
		to := from + length
		if to > t.Length {
			continue
		}
		for _, a := range t.ratios {
			if made, c, ok := t.tupletAt(from, to, a); ok && t.fits(from, to) {
				t.relax(int(to/t.step), tupletEnds, node{true, before.plus(c), place, kind, made})
			}
		}
	}
}

// relax keeps a way to a place if it is the cheapest so far, the first of equals.
func (t *tiling) relax(place, kind int, way node) {
	if at := &t.nodes[place][kind]; !at.reached || way.cost.less(at.cost) {
		*at = way
	}
}
