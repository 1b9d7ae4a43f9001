package fingering

import (
	"cmp"
	"slices"
)

// shift is what moving by a fret costs, where being a fret higher costs 1.
const shift = 3

// cost is compared in the order of its fields.
type cost struct{ hand, apart, frets int32 }

func (c cost) compare(o cost) int32 {
	return cmp.Or(c.hand-o.hand, c.apart-o.apart, c.frets-o.frets)
}

// path is the best way through a row that begins at one position.
type path struct {
	cost
	hands []Hand // nil if there is none
}

// better reports whether a path is to be preferred to another.
func (p *path) better(o *path) bool {
	switch {
	case p.hands == nil || o.hands == nil:
		return p.hands != nil
	case p.cost != o.cost:
		return p.compare(o.cost) < 0
	}
	return slices.CompareFunc(p.hands, o.hands, func(a, b Hand) int { return a.compare(&b) }) < 0
}

// tail is the best way from an attack at one position to the row's end.
type tail struct {
	cost
	rank     int8 // among those of the attack, by the order of their strings
	next     int8 // position of the attack after it
	possible bool
}

// anywhere is where a row begins that does not go round.
const anywhere = -1

// from finds the best path that begins at a position and comes back there, or of all
// those that begin anywhere.
func (r *reader) from(first int) (p path) {
	last := len(r.row) - 1
	tails := make([][positions]tail, len(r.row))
	for i := last; i >= 0; i-- {
		for h := range positions {
			w := &r.row[i][h]
			if !w.possible() || i == 0 && first != anywhere && h != first {
				continue
			}
			t := &tails[i][h]
			switch {
			case i < last:
				*t = best(&tails[i+1], h)
			case first != anywhere:
				t.hand = shift * apart(h, first)
			}
			t.hand, t.apart, t.frets, t.possible = t.hand+int32(h)+1, t.apart+int32(w.apart), t.frets+int32(w.frets), true
		}
		r.rank(i, tails)
	}
	begin := tail{}
	for h := range positions {
		if t := tails[0][h]; t.possible && (!begin.possible || cmp.Or(t.compare(begin.cost), int32(t.rank-begin.rank)) < 0) {
			begin, begin.next = t, int8(h)
		}
	}
	if !begin.possible {
		return p
	}
	p.cost = begin.cost
	h := begin.next
	for i, ways := range r.row {
		p.hands = append(p.hands, ways[h].hand)
		h = tails[i][h].next
	}
	return p
}

// best is the way on from a position to one of the tails of the next attack.
func best(tails *[positions]tail, h int) (t tail) {
	for next := range tails {
		o := tails[next]
		if !o.possible {
			continue
		}
		o.hand += shift * apart(h, next)
		o.next = int8(next)
		if !t.possible || cmp.Or(o.compare(t.cost), int32(o.rank-t.rank)) < 0 {
			t = o
		}
	}
	return t
}

// rank orders the tails of an attack by their strings, from it to the end.
func (r *reader) rank(i int, tails [][positions]tail) {
	var order []int
	for h := range positions {
		if tails[i][h].possible {
			order = append(order, h)
		}
	}
	compare := func(a, b int) int {
		c := r.row[i][a].hand.compare(&r.row[i][b].hand)
		if c == 0 && i+1 < len(tails) {
			c = int(tails[i+1][tails[i][a].next].rank - tails[i+1][tails[i][b].next].rank)
		}
		return c
	}
	slices.SortFunc(order, compare)
	for k, h := range order {
		tails[i][h].rank = int8(k)
		if k > 0 && compare(order[k-1], h) == 0 {
			tails[i][h].rank = tails[i][order[k-1]].rank
		}
	}
}

func apart(a, b int) int32 { return int32(max(a-b, b-a)) }
