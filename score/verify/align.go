package verify

import (
	"math"
	"slices"
)

// gap is a row of bars that one side has and the other has not.
type gap struct {
	missing bool // the score lacks bars [at, at+n) of the spec; else it has them too many
	at, n   int
	other   int  // the other side's bar that comes after it
	anyOf   bool // the music does not show which of several like bars they are
}

// alignment pairs the bars of both sides.
type alignment struct {
	*contents
	gaps []gap // in order
}

// What an alignment may cost: so many pairs of bars are looked at, and an offset
// of the two sides may be so much more than the difference of their lengths.
const (
	mostPairs = 4 << 20
	slack     = 16
)

// align finds the pairing of bars in which the fewest notes differ, with the
// fewest gaps. ok is false when it would take too long, or when the sides
// need none.
func align(c *contents) (a *alignment, ok bool) {
	band := max(len(c.want)-len(c.got), len(c.got)-len(c.want)) + slack
	tooLong := func(bars int) bool { return (bars+1)*(2*band+1) > mostPairs }
	head, tail := c.atEnds(func(i, j int) bool { return c.wanted[i].unlike(c.heard[j]) == 0 })
	if tooLong(len(c.want) - head - tail) {
		head, tail = c.atEnds(func(i, j int) bool { return true })
	}
	want, got := c.want[head:len(c.want)-tail], c.got[head:len(c.got)-tail]
	if tooLong(len(want)) {
		return nil, false
	}
	a = &alignment{contents: c}
	for _, g := range c.shortest(want, got, head, band) {
		g.at, g.other = g.at+head, g.other+head
		a.slide(&g)
		a.gaps = append(a.gaps, a.byPass(g)...)
	}
	return a, len(a.gaps) > 0
}

// atEnds counts how many bars both sides have alike at the beginning and the end, of
// those of which same holds too.
func (c *contents) atEnds(same func(want, got int) bool) (head, tail int) {
	most := min(len(c.want), len(c.got))
	for head < most && c.want[head] == c.got[head] && same(head, head) {
		head++
	}
	for i, j := len(c.want)-1, len(c.got)-1; tail < most-head && c.want[i] == c.got[j] && same(i, j); i, j = i-1, j-1 {
		tail++
	}
	return head, tail
}

// byPass divides missing bars where a section is played again, but for all its repeats
// together.
func (a *alignment) byPass(g gap) (all []gap) {
	for g.missing && !a.isRepeats(g) {
		first := g
		for n := range g.n { // all repeats, else the bars of one pass
			if first.n = n + 1; a.isRepeats(first) {
				break
			}
		}
		if !a.isRepeats(first) {
			first.n = 1
			for first.n < g.n && a.wanted[g.at+first.n].pass == a.wanted[g.at].pass {
				first.n++
			}
		}
		n := first.n
		if n == g.n {
			break
		}
		all = append(all, first)
		g.at, g.n = g.at+n, g.n-n
	}
	return append(all, g)
}

// isRepeats reports whether the missing bars are all that is played of a section after its
// first pass.
func (a *alignment) isRepeats(g gap) bool {
	end := g.at + g.n
	again := func(b bar) bool { return b.pass > 1 }
	return g.at > 0 && !again(a.wanted[g.at-1]) && !slices.ContainsFunc(a.wanted[g.at:end], func(b bar) bool { return !again(b) }) &&
		(end == len(a.wanted) || !again(a.wanted[end]))
}

// The three ways to go on from a pair of places: a bar of both, of the spec
// alone, of the score alone.
const (
	both = iota
	wantOnly
	gotOnly
	ways
)

// shortest is the classic alignment with affine gaps in a band around the
// diagonal: best[w][i][j] is the least cost of the first i and j bars whose last
// step was w. The bars are those from head on. Of alignments that cost as much that
// is taken which pairs the fewest bars of different passes or numbers.
func (c *contents) shortest(want, got []int, head, band int) []gap {
	const one = mostPairs // a unit of cost, more than that all passes and numbers differ
	width := 2*band + 1
	open := 2 * c.usual * one
	before := make([][ways]int, width+1) // of the row before; column j - i + band
	from := make([][ways]int8, (len(want)+1)*width)
	const far = math.MaxInt / 4
	for i := 0; i <= len(want); i++ {
		here := make([][ways]int, width+1)
		for k := range here {
			here[k] = [ways]int{far, far, far}
		}
		for k := range width {
			j := i + k - band
			if j < 0 || j > len(got) {
				continue
			}
			step := &from[i*width+k]
			if i == 0 && j == 0 {
				here[k][both] = 0
				continue
			}
			if i > 0 && j > 0 {
				lead := 0
				if j == 1 && c.begins(head, i) {
					lead = -open
				}
				here[k][both], step[both] = least(before[k], [ways]int{wantOnly: lead})
				here[k][both] += one * c.differ(want[i-1], got[j-1])
				here[k][both] += c.wanted[head+i-1].unlike(c.heard[head+j-1])
			}
			if i > 0 {
				after := open
				if j == len(got) && c.ends(head+i-2, head+j-1) {
					after = 0
				}
				here[k][wantOnly], step[wantOnly] = least(before[k+1], [ways]int{after, 0, open})
				here[k][wantOnly] += one
			}
			if j > 0 && k > 0 {
				here[k][gotOnly], step[gotOnly] = least(here[k-1], [ways]int{open, open, 0})
				here[k][gotOnly] += one
			}
		}
		before = here
	}
	return trace(want, got, band, before, from)
}

// begins reports whether the score begins with bar i of those from head on, counted from 1,
// by its number: what comes before is then left out, and no slip.
func (c *contents) begins(head, i int) bool {
	return head == 0 && c.wanted[i-1].unlike(c.heard[0]) == 0
}

// ends reports whether bar j of the score is its last, and bar i of the spec by its number
// and its notes: what comes after is then left out, and no slip.
func (c *contents) ends(i, j int) bool {
	return i >= 0 && j >= 0 && j == len(c.got)-1 && c.want[i] == c.got[j] && c.wanted[i].unlike(c.heard[j]) == 0
}

func least(costs, more [ways]int) (cost int, way int8) {
	cost = math.MaxInt
	for w := range costs {
		if n := costs[w] + more[w]; n < cost {
			cost, way = n, int8(w)
		}
	}
	return cost, way
}

// trace goes back along the best pairing and gathers its gaps.
func trace(want, got []int, band int, last [][ways]int, from [][ways]int8) (gaps []gap) {
	i, j := len(want), len(got)
	width := 2*band + 1
	_, way := least(last[j-i+band], [ways]int{})
	for i > 0 || j > 0 {
		next := from[i*width+j-i+band][way]
		switch way {
		case both:
			i, j = i-1, j-1
		case wantOnly:
			i--
			if n := len(gaps); n > 0 && gaps[n-1].missing && gaps[n-1].at == i+1 && gaps[n-1].other == j {
				gaps[n-1].at, gaps[n-1].n = i, gaps[n-1].n+1
			} else {
				gaps = append(gaps, gap{missing: true, at: i, n: 1, other: j})
			}
		case gotOnly:
			j--
			if n := len(gaps); n > 0 && !gaps[n-1].missing && gaps[n-1].at == j+1 && gaps[n-1].other == i {
				gaps[n-1].at, gaps[n-1].n = j, gaps[n-1].n+1
			} else {
				gaps = append(gaps, gap{at: j, n: 1, other: i})
			}
		}
		way = next
	}
	slices.Reverse(gaps)
	return gaps
}

// slide settles a gap that could as well be somewhere else, among bars that are
// alike: where the numbers or the repeats of the score say it is, else last.
func (a *alignment) slide(g *gap) {
	own, other := a.got, a.want
	if g.missing {
		own, other = a.want, a.got
	}
	for g.at+g.n < len(own) && g.other < len(other) && own[g.at] == own[g.at+g.n] {
		g.at, g.other = g.at+1, g.other+1
	}
	last := *g
	for g.at > 0 && g.other > 0 && own[g.at-1] == own[g.at+g.n-1] {
		g.at, g.other = g.at-1, g.other-1
	}
	last.anyOf = *g != last
	for ; g.at < last.at; g.at, g.other = g.at+1, g.other+1 {
		if a.isShown(*g) {
			return
		}
	}
	last.anyOf = last.anyOf && !a.isShown(last)
	*g = last
}

// isShown reports whether the score itself says that the gap is here: the bar
// after what is missing still has its own number, what is too many is played
// again.
func (a *alignment) isShown(g gap) bool {
	if g.missing {
		if g.other == len(a.heard) {
			return false
		}
		want, got := a.wanted[g.at+g.n], a.heard[g.other]
		return want.number == got.number && want.pass == got.pass
	}
	return allRepeated(a.heard[g.at : g.at+g.n])
}

// isTwice reports whether the bars that are too many are those before them again.
// What rang into the first of them may be struck anew there.
func (a *alignment) isTwice(g gap) bool {
	if g.at < g.n {
		return false
	}
	for k := range g.n {
		x, y := a.kinds[a.got[g.at-g.n+k]], a.kinds[a.got[g.at+k]]
		if k == 0 {
			y = slices.DeleteFunc(slices.Clone(y), func(n uint64) bool { return n>>16&(1<<40-1) == 0 && !slices.Contains(x[1:], n) && n != y[0] })
		}
		if !slices.Equal(x, y) {
			return false
		}
	}
	return true
}
