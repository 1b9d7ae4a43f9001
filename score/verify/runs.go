package verify

import (
	"slices"

	"tieover/score/beat"
)

// best looks for rows of notes that were all moved by one amount, as after an
// inserted rest: such a row is one difference, not one for each of its notes.
func (c *comparison) best() *matching {
	m := c.exactly(nil)
	for range mostRuns {
		want, got := c.left(m)
		next, ok := c.nextRun(want, got, m.runs)
		if !ok {
			return m
		}
		tried := c.exactly(append(slices.Clone(m.runs), next))
		want2, got2 := c.left(tried)
		if len(want2)+len(got2)+1 >= len(want)+len(got) {
			return m
		}
		m = tried
	}
	return m
}

const (
	mostRuns    = 8
	fewestInRun = 4
	mostTried   = 4096 // leftover notes that are looked at for a common move
)

// farthest is how far a note may have been moved to count as the same note.
func farthest() beat.Span { return beat.Of(4, 1) }

// nextRun proposes the longest row of notes that begins with an unmatched one
// and is found again, moved as that one was.
func (c *comparison) nextRun(want, got []int, runs []run) (best run, ok bool) {
	if len(want) < fewestInRun || len(got) < 1 {
		return run{}, false
	}
	places := c.places()
	tried := map[beat.Span]bool{}
	first := want[0]
	for _, i := range want[:min(len(want), 64)] {
		if !within(runs, i) {
			first = i
			break
		}
	}
	if within(runs, first) {
		return run{}, false
	}
	for _, j := range got[:min(len(got), mostTried)] {
		by := c.got[j].onset.Sub(c.want[first].onset)
		if c.got[j].sound != c.want[first].sound || by.Sign() == 0 || tried[by] || tooFar(by) {
			continue
		}
		tried[by] = true
		end := first
		for end < len(c.want) && !within(runs, end) {
			if len(places[moment{c.want[end].onset.Add(by), c.want[end].sound}]) == 0 {
				break
			}
			end++
		}
		if n := end - first; n >= fewestInRun && n > best.to-best.from {
			best, ok = run{first, end, by}, true
		}
	}
	return best, ok
}

func tooFar(by beat.Span) bool {
	return by.Cmp(farthest()) > 0 || (beat.Span{}).Sub(by).Cmp(farthest()) > 0
}
