package verify

import (
	"slices"

	"tieover/score/beat"
)

// pairLeftovers reports the notes that nothing was matched with. Notes of the two
// sides that one slip of a hand explains are one difference: first notes that changed
// places; then those of which one thing changed, the pitch or the moment; then
// those of which the length changed besides. The rest is missing or extra.
func (c *comparison) pairLeftovers(m *matching, next []int) {
	want, got := c.leftover(m)
	want, got = c.exchanges(want, got, next)
	moves := c.moves(m)
	var wrong []wrongPitch
	pitch := func(i, j int) {
		wrong = append(wrong, wrongPitch{c.want[i], c.got[j], c.lengthDiffers(m, next, i, j)})
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
func lasts(w, g note) bool { return w.loose || w.length == g.length || w.end() == g.end() }

// moves says whether a note can be taken to have moved: not past another of its
// layer that is where it should be.
func (c *comparison) moves(m *matching) func(w, g note) bool {
	right := make([][]beat.Time, len(c.names)) // onsets by layer
	for i, j := range m.got {
		if w := c.want[i]; j >= 0 {
			right[w.layer] = append(right[w.layer], c.got[j].onset)
		}
	}
	return func(w, g note) bool {
		from, to := min(w.onset, g.onset), max(w.onset, g.onset)
		onsets := right[w.layer]
		i, _ := slices.BinarySearch(onsets, from+1)
		return to-from <= c.farthest() && (i == len(onsets) || onsets[i] >= to)
	}
}

// pairUp pairs leftover notes that belong together, each with the nearest, and
// returns what is still left.
func (c *comparison) pairUp(want, got []int, together func(w, g note) bool, report func(i, j int)) (restWant, restGot []int) {
	paired, gone := map[int]bool{}, map[int]bool{}
	low := 0
	for _, i := range want {
		w := c.want[i]
		for low < len(got) && c.got[got[low]].onset+c.farthest() < w.onset {
			low++
		}
		best, bestGap := -1, beat.Time(0)
		for _, j := range got[low:] {
			gap := c.got[j].onset - w.onset
			if gap > c.farthest() {
				break
			}
			gap = max(gap, -gap)
			if !gone[j] && (best < 0 || gap < bestGap) && together(w, c.got[j]) {
				best, bestGap = j, gap
			}
		}
		if best >= 0 {
			paired[i], gone[best] = true, true
			report(i, best)
		}
	}
	return without(want, paired), without(got, gone)
}
