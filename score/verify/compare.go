package verify

import (
	"cmp"
	"slices"

	"tieover/score"
	"tieover/score/beat"
	"tieover/score/heard"
)

// comparison compares one part.
type comparison struct {
	piece   *score.Piece
	part    *heard.Part
	options Options
	// composite: what begins together is one attack, each sound once; how long
	// it lasts is up to the next and not compared.
	composite bool

	want, got []note
	names     []string // of the layers
	voices    map[string]int
	found     []Difference
}

// run compares the part with its layers and returns how many notes it should
// have.
func (c *comparison) run(layers []layer) int {
	c.names = names(layers)
	if c.composite && !c.isPitched() {
		c.options.RhythmOnly = true
	}
	c.want, c.got = c.expected(layers), c.played(layers)
	if c.composite {
		c.together()
	}
	if len(c.got) == 0 && len(c.want) > 0 {
		c.empty()
		return len(c.want)
	}
	m := c.best()
	c.learnVoices(m)
	c.report(m)
	return len(c.want)
}

func (c *comparison) isPitched() bool {
	return slices.ContainsFunc(c.part.Attacks, func(a heard.Attack) bool { return a.Tones[0].Step != 0 })
}

// together makes one layer of all, without what is struck twice at once.
func (c *comparison) together() {
	c.names = []string{composite}
	for i := range c.want {
		c.want[i].layer, c.want[i].loose = 0, true
	}
	c.want = slices.CompactFunc(c.want, func(a, b note) bool { return a.onset == b.onset && a.sound == b.sound })
}

// matching says which note of the score is which note of the spec.
type matching struct {
	got  []int // for each wanted note the index of the played one, or -1
	used []bool
	runs []run
}

// run is a row of notes that sound earlier or later by one amount.
type run struct {
	from, to int // wanted notes [from, to)
	by       beat.Span
}

type moment struct {
	onset beat.Span
	sound string
}

// exactly matches notes that sound the same at the same moment; those of the
// runs at the moment they were moved to.
func (c *comparison) exactly(runs []run) *matching {
	m := &matching{got: make([]int, len(c.want)), used: make([]bool, len(c.got)), runs: runs}
	places := c.places()
	for i := range m.got {
		m.got[i] = -1
	}
	for _, r := range runs {
		for i := r.from; i < r.to; i++ {
			c.take(m, places, i, r.by)
		}
	}
	for i := range c.want {
		if m.got[i] < 0 && !within(runs, i) {
			c.take(m, places, i, beat.Span{})
		}
	}
	return m
}

func within(runs []run, i int) bool {
	return slices.ContainsFunc(runs, func(r run) bool { return r.from <= i && i < r.to })
}

// places lists the played notes by moment and sound.
func (c *comparison) places() map[moment][]int {
	places := make(map[moment][]int, len(c.got))
	for j, n := range c.got {
		key := moment{n.onset, n.sound}
		places[key] = append(places[key], j)
	}
	return places
}

// take matches wanted note i with an unused note at its moment, if possible one
// of its length.
func (c *comparison) take(m *matching, places map[moment][]int, i int, by beat.Span) {
	n := c.want[i]
	best := -1
	for _, j := range places[moment{n.onset.Add(by), n.sound}] {
		if m.used[j] {
			continue
		}
		if best < 0 || c.got[j].length == n.length && c.got[best].length != n.length {
			best = j
		}
	}
	if best >= 0 {
		m.got[i], m.used[best] = best, true
	}
}

// left returns the notes on both sides that nothing was matched with.
func (c *comparison) left(m *matching) (want, got []int) {
	for i, j := range m.got {
		if j < 0 {
			want = append(want, i)
		}
	}
	for j, used := range m.used {
		if !used {
			got = append(got, j)
		}
	}
	return want, got
}

// learnVoices finds out which voice of the part writes which layer, from the
// notes that match.
func (c *comparison) learnVoices(m *matching) {
	votes := map[string]map[int]int{}
	for i, j := range m.got {
		if j < 0 {
			continue
		}
		voice := c.got[j].voice
		if votes[voice] == nil {
			votes[voice] = map[int]int{}
		}
		votes[voice][c.want[i].layer]++
	}
	c.voices = map[string]int{}
	for voice, layers := range votes {
		best := -1
		for k := range c.names {
			if best < 0 && layers[k] > 0 || best >= 0 && layers[k] > layers[best] {
				best = k
			}
		}
		c.voices[voice] = best
	}
}

// layerOf names the layer that a played note belongs to.
func (c *comparison) layerOf(n note) string {
	if k, ok := c.voices[n.voice]; ok && k >= 0 {
		return c.names[k]
	}
	return c.names[0]
}

// report turns the matching into differences.
func (c *comparison) report(m *matching) {
	for _, r := range m.runs {
		c.reportRun(r)
	}
	for i, j := range m.got {
		if j >= 0 && c.lengthDiffers(m, i, j) {
			c.otherLength(c.want[i], c.got[j])
		}
	}
	c.pairLeftovers(m)
	slices.SortStableFunc(c.found, func(a, b Difference) int { return cmp.Or(a.At.Cmp(b.At), cmp.Compare(a.Kind, b.Kind)) })
}

// lengthDiffers reports whether a note's other length is a difference of its
// own: not when it ends early only because the score has another note there
// that is reported anyway, or late because one is missing.
func (c *comparison) lengthDiffers(m *matching, i, j int) bool {
	want, got := c.want[i], c.got[j]
	if want.length == got.length || want.loose {
		return false
	}
	wantEnd, gotEnd := got.onset.Add(want.length), got.onset.Add(got.length)
	if gotEnd.Cmp(wantEnd) < 0 { // shorter: does an unmatched note begin at its end?
		for k := j + 1; k < len(c.got) && c.got[k].onset.Cmp(gotEnd) <= 0; k++ {
			if c.got[k].onset == gotEnd && !m.used[k] {
				return false
			}
		}
		return true
	}
	for k := i + 1; k < len(c.want) && c.want[k].onset.Cmp(want.onset.Add(want.length)) <= 0; k++ {
		if m.got[k] < 0 && c.want[k].onset == want.onset.Add(want.length) {
			return false
		}
	}
	return true
}
