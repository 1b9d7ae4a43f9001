package verify

import (
	"encoding/binary"
	"slices"

	"tieover/score/beat"
)

// contents is what begins in each bar of both sides, as numbers: alike bars have
// one number.
type contents struct {
	want, got     []int // kinds of bars
	wanted, heard []bar
	kinds         [][]uint64 // what begins in a bar of that kind, in order
	index         map[string]int
	cost          map[[2]int]int
	usual         int // how many notes a bar has, about
}

// contents reads what begins in the bars of the given parts.
func (w *whole) contents(parts []*comparison, wanted, got []bar) *contents {
	c := &contents{wanted: wanted, heard: got, index: map[string]int{}, cost: map[[2]int]int{}}
	notes := 0
	side := func(bars []bar, of func(*comparison) []note) []int {
		begins := make([][]uint64, len(bars))
		for p, part := range parts {
			i := 0
			for _, n := range of(part) {
				for i < len(bars) && n.onset >= bars[i].end() {
					i++
				}
				if i < len(bars) && n.onset >= bars[i].start {
					begins[i] = append(begins[i], uint64(p)<<56|uint64(n.onset-bars[i].start)<<16|uint64(n.sound)&0xffff)
					notes++
				}
			}
		}
		kinds := make([]int, len(bars))
		for i, b := range bars {
			kinds[i] = c.kind(b.length, begins[i])
		}
		return kinds
	}
	c.want = side(wanted, func(p *comparison) []note { return p.want })
	c.got = side(got, func(p *comparison) []note { return p.got })
	c.usual = notes/max(1, len(wanted)+len(got)) + 1
	return c
}

func (c *contents) kind(length beat.Time, begins []uint64) int {
	slices.Sort(begins)
	key := binary.AppendVarint(nil, int64(length))
	for _, b := range begins {
		key = binary.AppendUvarint(key, b)
	}
	kind, known := c.index[string(key)]
	if !known {
		kind = len(c.kinds)
		c.index[string(key)] = kind
		c.kinds = append(c.kinds, append([]uint64{uint64(length)}, begins...))
	}
	return kind
}

// differ counts the notes that one of two kinds of bars has and the other has
// not; bars of different lengths have nothing in common.
func (c *contents) differ(a, b int) int {
	if a == b {
		return 0
	}
	n, known := c.cost[[2]int{a, b}]
	if known {
		return n
	}
	x, y := c.kinds[a], c.kinds[b]
	if x[0] != y[0] {
		n = len(x) + len(y)
	} else {
		x, y = x[1:], y[1:]
		for len(x) > 0 && len(y) > 0 {
			switch {
			case x[0] == y[0]:
				x, y = x[1:], y[1:]
			case x[0] < y[0]:
				x, n = x[1:], n+1
			default:
				y, n = y[1:], n+1
			}
		}
		n += len(x) + len(y)
	}
	c.cost[[2]int{a, b}] = n
	return n
}
