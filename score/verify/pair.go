package verify

import (
	"slices"

	"tieover/score/beat"
)

// pairLeftovers tells what nothing was matched with. Notes of the two sides
// that one slip of a hand explains are told together: first notes that changed
// places; then those of which one thing changed, the pitch or the moment; then
// those of which the length changed besides. The rest is missing or extra.
func (c *comparison) pairLeftovers(m *matching) {
	want, got := c.exchanges(c.left(m))
	moves := c.moves(m)
	var wrong []wrongPitch
	pitch := func(i, j int) {
		wrong = append(wrong, wrongPitch{c.want[i], c.got[j], c.lengthDiffers(m, i, j)})
	}
	moved := func(i, j int) { c.moved(c.want[i], c.got[j]) }
	for _, sameLength := range []bool{true, false} {
		alike := func(w, g note) bool { return !sameLength || lasts(w, g) }
		want, got = c.pairUp(want, got, func(w, g note) bool { return w.onset == g.onset && alike(w, g) }, pitch)
		want, got = c.pairUp(want, got, func(w, g note) bool { return w.sound == g.sound && alike(w, g) && moves(w, g) }, moved)
	}
	c.otherPitches(wrong, m)
	for _, i := range want {
		c.missing(c.want[i])
	}
	for _, j := range got {
		c.extra(c.got[j])
	}
}

// lasts reports whether a note lasts as it should, or at least until it should.
func lasts(w, g note) bool {
	return w.loose || w.length == g.length || w.onset.Add(w.length) == g.onset.Add(g.length)
}

// moves says whether a note can be taken to have moved: not past another of its
// layer that is where it should be.
func (c *comparison) moves(m *matching) func(w, g note) bool {
	right := make([][]beat.Span, len(c.names)) // onsets by layer
	for i, j := range m.got {
		if w := c.want[i]; j >= 0 {
			right[w.layer] = append(right[w.layer], c.got[j].onset)
		}
	}
	for _, onsets := range right {
		slices.SortFunc(onsets, beat.Span.Cmp)
	}
	return func(w, g note) bool {
		from, to := w.onset, g.onset
		if to.Cmp(from) < 0 {
			from, to = to, from
		}
		onsets := right[w.layer]
		i, _ := slices.BinarySearchFunc(onsets, from, beat.Span.Cmp)
		for i < len(onsets) && onsets[i] == from {
			i++
		}
		return !tooFar(to.Sub(from)) && (i == len(onsets) || onsets[i].Cmp(to) >= 0)
	}
}

// pairUp pairs leftover notes that belong together, each with the nearest, and
// returns what is still left.
func (c *comparison) pairUp(want, got []int, together func(w, g note) bool, tell func(i, j int)) (restWant, restGot []int) {
	gone := map[int]bool{}
	low := 0
	for _, i := range want {
		w := c.want[i]
		for low < len(got) && c.got[got[low]].onset.Add(farthest()).Cmp(w.onset) < 0 {
			low++
		}
		best, bestGap := -1, beat.Span{}
		for _, j := range got[low:] {
			gap := c.got[j].onset.Sub(w.onset)
			if gap.Cmp(farthest()) > 0 {
				break
			}
			if gap.Sign() < 0 {
				gap = beat.Span{}.Sub(gap)
			}
			if !gone[j] && together(w, c.got[j]) && (best < 0 || gap.Cmp(bestGap) < 0) {
				best, bestGap = j, gap
			}
		}
		if best < 0 {
			restWant = append(restWant, i)
			continue
		}
		gone[best] = true
		tell(i, best)
	}
	for _, j := range got {
		if !gone[j] {
			restGot = append(restGot, j)
		}
	}
	return restWant, restGot
}
