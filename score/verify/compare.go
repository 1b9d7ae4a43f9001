package verify

import (
	"cmp"
	"slices"

	"tieover/score"
	"tieover/score/beat"
	"tieover/score/heard"
)

// comparison compares one part with the layers that it should hold.
type comparison struct {
	piece  *score.Piece
	part   *heard.Part
	layers []layer
	grid   beat.Grid
	words  *vocabulary
	// composite: what begins together is one attack, each sound once; how long
	// it lasts is up to the next and not compared.
	composite  bool
	rhythmOnly bool

	want, got []note
	wanted    int       // how many notes the spec wants
	right     bool      // all is as it should be: want and got are dropped
	end       beat.Time // of the part's last bar
	names     []string  // of the layers
	voices    map[string]int
	runs      []run
	found     []Difference
	written   []writing
	explained map[beat.Time]bool // where a tie that lacks an end follows from a difference
}

// read lists the notes of both sides.
func (c *comparison) read() {
	c.names = names(c.layers)
	if c.composite && !c.isPitched() {
		c.rhythmOnly = true
	}
	c.want, c.got = c.expectedNotes(c.layers), c.playedNotes(c.layers)
	switch {
	case c.composite:
		c.together()
	case c.sharesSides():
		c.union()
	}
	if n := len(c.part.Bars); n > 0 {
		c.end = c.grid.Must(c.part.Bars[n-1].Start.Add(c.part.Bars[n-1].Length))
	}
}

// settle drops the notes of both sides if there is no difference.
func (c *comparison) settle() {
	c.wanted = len(c.want)
	if c.right = c.agrees(); c.right {
		c.want, c.got = nil, nil
	}
}

// agrees reports whether both sides have the same notes.
func (c *comparison) agrees() bool {
	if len(c.want) != len(c.got) {
		return false
	}
	for i, w := range c.want {
		if g := c.got[i]; w.onset != g.onset || w.sound != g.sound || w.length != g.length && !w.loose {
			return false
		}
	}
	return true
}

// run looks for the differences.
func (c *comparison) run(remarks []heard.Remark) {
	if c.right {
		return
	}
	if len(c.got) == 0 && len(c.want) > 0 {
		c.empty()
		return
	}
	c.explained = map[beat.Time]bool{}
	c.joinBrokenTies(remarks)
	m := c.best()
	if len(c.runs) == 0 && c.findSilentBars() {
		m = c.best()
	}
	c.learnVoices(m)
	c.report(m)
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
	c.want = slices.CompactFunc(c.want, isTwice)
}

// sharesSides reports whether the part has several layers on a percussion staff,
// where those of one side are written as one voice.
func (c *comparison) sharesSides() bool {
	for _, l := range c.layers {
		for own := range l.in(c.piece) {
			if !own.Instrument.IsUnpitched() && own.Instrument.Lines != 1 {
				return false
			}
		}
	}
	return len(c.layers) > 1
}

// union leaves each sound once that several layers strike at one moment; how long
// it lasts is up to what the others strike.
func (c *comparison) union() {
	for i := range c.want {
		c.want[i].loose = true
	}
	c.want, c.got = slices.CompactFunc(c.want, isTwice), slices.CompactFunc(c.got, isTwice)
}

// matching says which note of the score is which note of the spec.
type matching struct {
	got  []int // for each wanted note the index of the played one, or -1
	used []bool
}

type moment struct {
	onset beat.Time
	sound word
}

// exactly matches notes that sound the same at the same moment, if possible with
// the same length. Both sides are in order, so that one walk finds them.
func (c *comparison) exactly() *matching {
	m := &matching{got: make([]int, len(c.want)), used: make([]bool, len(c.got))}
	j := 0
	for i := 0; i < len(c.want); {
		for j < len(c.got) && byOnset(c.got[j], c.want[i]) < 0 {
			j++
		}
		toI, toJ := i+1, j
		for toI < len(c.want) && isTwice(c.want[toI], c.want[i]) {
			toI++
		}
		for toJ < len(c.got) && isTwice(c.got[toJ], c.want[i]) {
			toJ++
		}
		for k := i; k < toI; k++ {
			m.got[k] = c.take(m, k, j, toJ)
		}
		i, j = toI, toJ
	}
	return m
}

// take returns the unused one of the played notes [from, to) that wanted note i
// is, and -1 when there is none.
func (c *comparison) take(m *matching, i, from, to int) int {
	best := -1
	for j := from; j < to; j++ {
		if m.used[j] {
			continue
		}
		if best < 0 || c.got[j].length == c.want[i].length && c.got[best].length != c.want[i].length {
			best = j
		}
	}
	if best >= 0 {
		m.used[best] = true
	}
	return best
}

// leftover returns the notes on both sides that nothing was matched with.
func (c *comparison) leftover(m *matching) (want, got []int) {
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

// countLeftover counts what is left.
func (c *comparison) countLeftover() int {
	if c.right {
		return 0
	}
	want, got := c.leftover(c.exactly())
	return len(want) + len(got)
}

// learnVoices finds out which voice of the part writes which layer, from the
// notes that match.
func (c *comparison) learnVoices(m *matching) {
	votes := map[string][]int{}
	for i, j := range m.got {
		if j < 0 {
			continue
		}
		voice := c.got[j].voice
		if votes[voice] == nil {
			votes[voice] = make([]int, len(c.names))
		}
		votes[voice][c.want[i].layer]++
	}
	c.voices = map[string]int{}
	for voice, layers := range votes {
		c.voices[voice] = slices.Index(layers, slices.Max(layers))
	}
}

// layerOf names the layer that a played note belongs to.
func (c *comparison) layerOf(n note) string {
	if k, ok := c.voices[n.voice]; ok {
		return c.names[k]
	}
	return c.names[0]
}

// report turns the matching into differences.
func (c *comparison) report(m *matching) {
	for _, r := range c.runs {
		c.reportRun(r)
	}
	next := c.following()
	for i, j := range m.got {
		if j >= 0 && c.lengthDiffers(m, next, i, j) {
			c.otherLength(c.want[i], c.got[j])
		}
	}
	c.pairLeftovers(m, next)
	slices.SortStableFunc(c.found, func(a, b Difference) int { return cmp.Or(a.At.Cmp(b.At), cmp.Compare(a.Kind, b.Kind)) })
}

// following returns for each wanted note the next that begins later in its
// layer, -1 when it is the last.
func (c *comparison) following() []int {
	next := make([]int, len(c.want))
	ahead := make([]int, len(c.names))   // the first of what begins last so far, by layer
	further := make([]int, len(c.names)) // and of what begins after that
	for k := range ahead {
		ahead[k], further[k] = -1, -1
	}
	for i := len(c.want) - 1; i >= 0; i-- {
		k := c.want[i].layer
		if ahead[k] >= 0 && c.want[ahead[k]].onset > c.want[i].onset {
			further[k] = ahead[k]
		}
		ahead[k], next[i] = i, further[k]
	}
	return next
}
