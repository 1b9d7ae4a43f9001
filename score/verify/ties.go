package verify

import (
	"fmt"
	"slices"
	"sort"

	"tieover/score/beat"
	"tieover/score/heard"
)

// joinBrokenTies makes one note again of two whose tie lacks an end, where the spec has one.
// If both sound the same, the tie is the one difference; else it follows from the half that
// has another pitch.
func (c *comparison) joinBrokenTies(remarks []heard.Remark) {
	seams := map[beat.Time]bool{}
	for _, r := range remarks {
		if r.Kind == heard.Loose && r.Part == c.part.Name {
			seams[c.grid.Must(r.At)] = true
		}
	}
	if len(seams) == 0 {
		return
	}
	ending := map[beat.Time][]int{} // which notes of the score end at a seam
	for i, g := range c.got {
		if seams[g.end()] {
			ending[g.end()] = append(ending[g.end()], i)
		}
	}
	gone := map[int]bool{}
	for i, second := range c.got {
		for _, j := range ending[second.onset] {
			if w, ok := c.wantedWhole(c.got[j], second); ok && !gone[j] && !gone[i] {
				c.join(w, &c.got[j], second)
				gone[i] = true
			}
		}
	}
	var rest []note
	for i, g := range c.got {
		if !gone[i] {
			rest = append(rest, g)
		}
	}
	c.got = rest
}

// wantedWhole returns the note of the spec that lasts as long as two of the score together,
// of which at least one sounds as it does.
func (c *comparison) wantedWhole(first, second note) (w note, ok bool) {
	for _, w := range c.wantedBetween(first.onset, first.onset+1) {
		if w.end() == second.end() && (w.sound == first.sound || w.sound == second.sound) {
			return w, true
		}
	}
	return note{}, false
}

// wantedBetween returns the notes of the spec that begin from one moment until another.
func (c *comparison) wantedBetween(from, to beat.Time) []note {
	first := sort.Search(len(c.want), func(i int) bool { return c.want[i].onset >= from })
	n := sort.Search(len(c.want)-first, func(i int) bool { return c.want[first+i].onset >= to })
	return c.want[first : first+n]
}

// join makes the first of two notes last for both.
func (c *comparison) join(w note, first *note, second note) {
	first.length = w.length
	if first.sound == second.sound {
		return
	}
	c.explained[second.onset] = true
	if first.sound == w.sound {
		c.otherPitch(wrongPitch{want: note{onset: second.onset, term: w.term, layer: w.layer}, got: second})
	}
}

// findSilentBars reports bars in which the part has only rests although the spec has several
// notes, in one line for bars that follow each other. What was tied into or out of them
// follows from that. It reports whether there are any.
func (c *comparison) findSilentBars() (any bool) {
	bars := heardBars(c.part.Bars, c.grid)
	reach, j := beat.Time(0), 0 // until when the notes before sound
	var silent []bar
	for _, b := range bars {
		for ; j < len(c.got) && c.got[j].onset < b.start; j++ {
			reach = max(reach, c.got[j].end())
		}
		if reach <= b.start && (j == len(c.got) || c.got[j].onset >= b.end()) && len(c.wantedBetween(b.start, b.end())) > 0 {
			silent = append(silent, b)
		}
	}
	for i := 0; i < len(silent); {
		n := i + 1
		for n < len(silent) && silent[n].start == silent[n-1].end() {
			n++
		}
		if wanted := slices.Clone(c.wantedBetween(silent[i].start, silent[n-1].end())); len(wanted) > 1 {
			c.silence(silent[i:n], wanted)
			any = true
		}
		i = n
	}
	return any
}

// silence reports bars that are silent, and takes what the spec has there out of the comparison.
func (c *comparison) silence(bars []bar, wanted []note) {
	from, to := bars[0].start, bars[len(bars)-1].end()
	c.explained[from], c.explained[to] = true, true
	ring := map[moment]beat.Time{} // the ends of what is tied out of the bars
	for _, w := range wanted {
		if w.end() > to {
			ring[moment{to, w.sound}] = w.end()
		}
	}
	c.got = slices.DeleteFunc(c.got, func(g note) bool { return g.end() == ring[moment{g.onset, g.sound}] })
	c.want = slices.DeleteFunc(c.want, func(w note) bool { return from <= w.onset && w.onset < to })
	for i, w := range c.want {
		if w.onset < from && w.end() > from {
			c.want[i].length = from - w.onset
		}
	}
	d := c.place(from, Difference{Kind: Missing, Layer: c.part.Name, Count: len(wanted)})
	d.text = fmt.Sprintf("%s: %s has only rests, spec has %s", barNames(bars), c.part.Name, beat.Counted(len(wanted), "note"))
	c.found = append(c.found, d)
}
