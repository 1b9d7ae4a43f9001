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

// lengthDiffers reports whether a note's other length is a difference of its
// own: not when it ends early only because the score has another note there
// that is reported anyway, or late because one is missing; nor when it reaches to
// a neighbor that has moved, or has moved itself.
func (c *comparison) lengthDiffers(m *matching, next []int, i, j int) bool {
	want, got := c.want[i], c.got[j]
	if want.length == got.length || want.loose || c.followsAMove(next[i], want, got) {
		return false
	}
	wantEnd := got.onset + want.length
	if got.end() < wantEnd { // shorter: does an unmatched note begin at its end?
		for k := j + 1; k < len(c.got) && c.got[k].onset <= got.end(); k++ {
			if c.got[k].onset == got.end() && !m.used[k] {
				return false
			}
		}
		return true
	}
	for k := i + 1; k < len(c.want) && c.want[k].onset <= want.end(); k++ {
		if m.got[k] < 0 && c.want[k].onset == want.end() {
			return false
		}
	}
	return true
}

// followsAMove reports whether a note lasts as it does because it, or what comes
// after it in its layer, is earlier or later than it was.
func (c *comparison) followsAMove(next int, want, got note) bool {
	if next < 0 {
		return want.moved != 0 && got.end() == c.end
	}
	after := c.want[next]
	return (want.moved != 0 || after.moved != 0) && (got.end() == after.onset || got.end() == c.end)
}
