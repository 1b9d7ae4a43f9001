package bar

import (
	"sort"

	"tieover/layout/sheet"
	"tieover/score/beat"
)

// beamer joins the flagged notes of one voice in one bar.
type beamer struct {
	*MetricGrid
	grid    beat.Grid
	v       *VoiceInput
	events  []written
	byMeter bool
	eighths []bool // for each wide span: nothing in it is shorter than a plain eighth
	keys    []beamKey
}

// beamKey tells what an event is beamed by: notes next to each other with one key
// share a beam. The zero key has none.
type beamKey struct {
	by    room
	n     int // of the rooms of that kind
	pulse int // of a group whose pulses have beams of their own
}

// room is what a beam fills.
type room int

const (
	noRoom room = iota
	byTuplet
	bySpan // of the meter
	byPair // of wide spans
	byGroup
)

func (wr *Writer) beams(in *Input, v *VoiceInput, events []written) {
	b := &beamer{MetricGrid: in.MetricGrid, grid: wr.Grid, v: v, events: events, byMeter: wr.ByMeter || len(v.Groups) == 0}
	b.keys = make([]beamKey, len(events))
	b.eighths = make([]bool, len(b.pairs)-1)
	for i := range b.eighths {
		b.eighths[i] = true
	}
	for i := range events {
		if n := events[i].note; n != nil && n.Value.Flags() > 0 && (n.Value.Flags() > 1 || n.Value.Dots > 0) {
			b.eighths[spanOf(b.pairs, n.Start)] = false
		}
	}
	for i := range events {
		b.keys[i] = b.key(i)
	}
	if !b.byMeter {
		b.joinLone()
	}
	for from := 0; from < len(events); {
		to := b.runFrom(from)
		if to > from || b.crosses(from) {
			b.beam(from, to)
			from = to
		}
		from++
	}
}

// key tells which beam an event belongs to: by meter the span it lies in, by
// group its group, and each pulse of it where the pulse itself has no flag.
func (b *beamer) key(i int) beamKey {
	w := &b.events[i]
	at := w.at()
	if w.note != nil && w.note.Value.Flags() == 0 || w.rest != nil && (w.rest.Whole || w.rest.Value.Flags() == 0) {
		return beamKey{}
	}
	if b.byMeter || w.group < 0 {
		if w.tile.tuplet == nil {
			return b.meterKey(at)
		}
		s := spanOf(b.spans, w.tile.from)
		if w.tile.to > b.spans[s+1] || int64(w.tile.to-w.tile.from)*4 >= int64(b.grid) {
			return beamKey{by: byTuplet, n: int(w.tile.from)} // a beat of its own, or over the meter's spans
		}
		return beamKey{by: bySpan, n: s}
	}
	key := beamKey{by: byGroup, n: w.group}
	if b.v.Pulse.Base.Cmp(beat.Of(1, 4)) >= 0 {
		key.pulse = int((at - b.v.Groups[w.group].At) / b.v.Unit)
	}
	return key
}

// flagged reports whether the event is a note that a beam may hold.
func (b *beamer) flagged(i int) bool { return b.events[i].note != nil && b.keys[i].by != noRoom }

// meterKey is the span of the meter that a moment lies in: the wide one if
// nothing shorter than an eighth stands in it.
func (b *beamer) meterKey(at beat.Time) beamKey {
	wide := spanOf(b.pairs, at)
	if b.eighths[wide] {
		return beamKey{by: byPair, n: wide}
	}
	return beamKey{by: bySpan, n: spanOf(b.spans, at)}
}

// joinLone beams groups of a single attack together over a beat (two in 2/4
// and 4/4), for such groups alone would all be flags.
func (b *beamer) joinLone() {
	joined := make([]bool, len(b.events))
	b.joinLoneTuplets(joined)
	for s := range b.eighths {
		if b.eighths[s] {
			b.joinLoneIn(b.pairs[s], b.pairs[s+1], beamKey{by: byPair, n: s}, joined)
		}
	}
	for s := range len(b.spans) - 1 {
		b.joinLoneIn(b.spans[s], b.spans[s+1], beamKey{by: bySpan, n: s}, joined)
	}
}

// joinLoneTuplets beams groups of a single attack by the tuplet they stand in.
func (b *beamer) joinLoneTuplets(joined []bool) {
	for from := 0; from < len(b.events); {
		to := from + 1
		t := b.events[from].tile.tuplet
		for to < len(b.events) && b.events[to].tile.tuplet == t {
			to++
		}
		if t != nil && b.allLone(from, to) {
			for i := from; i < to; i++ {
				if b.flagged(i) {
					b.keys[i], joined[i] = beamKey{by: byTuplet, n: from}, true
				}
			}
		}
		from = to
	}
}

// allLone reports whether no group of a flagged note among the events has more
// than one attack.
func (b *beamer) allLone(from, to int) bool {
	for i := from; i < to; i++ {
		if g := b.events[i].group; b.flagged(i) && g >= 0 && !b.v.Groups[g].Lone {
			return false
		}
	}
	return true
}

// joinLoneIn does so in [from, to) if all groups there are such, and end there.
func (b *beamer) joinLoneIn(from, to beat.Time, key beamKey, joined []bool) {
	first := sort.Search(len(b.events), func(i int) bool { return b.events[i].at() >= from })
	last := sort.Search(len(b.events), func(i int) bool { return b.events[i].at() >= to })
	if !b.allLone(first, last) {
		return
	}
	for i := first; i < last; i++ {
		if n := b.events[i].note; b.flagged(i) && (joined[i] || n.Start+n.Length > to) {
			return
		}
	}
	for i := first; i < last; i++ {
		if b.flagged(i) {
			b.keys[i], joined[i] = key, true // a rest between such groups parts them
		}
	}
}

// runFrom returns the index of the last note of the beam that starts at from,
// or from itself. Rests inside are kept, rests at the edges left out.
func (b *beamer) runFrom(from int) int {
	last := from
	if !b.flagged(from) {
		return from
	}
	for i := from + 1; i < len(b.events) && b.keys[i] == b.keys[from]; i++ {
		if b.events[i].note != nil {
			last = i
		}
	}
	return last
}

// crosses reports whether a note alone is part of a beam over a barline.
func (b *beamer) crosses(i int) bool {
	return b.flagged(i) && (b.v.BeamIn && i == 0 || b.v.BeamOut && i == len(b.events)-1)
}

// overBarlines opens the first level of the bar's first beam to the left, and
// of its last one to the right.
func (b *beamer) overBarlines(first, last int, notes []*written) {
	in, out := b.v.BeamIn && first == 0, b.v.BeamOut && last == len(b.events)-1
	if in {
		n := notes[0].note
		n.BeamIn = true
		n.Beams[0] = sheet.BeamContinue
		if len(notes) == 1 && !out {
			n.Beams[0] = sheet.BeamEnd
		}
	}
	if out {
		n := notes[len(notes)-1].note
		n.BeamOut = true
		n.Beams[0] = sheet.BeamContinue
		if len(notes) == 1 && !in {
			n.Beams[0] = sheet.BeamBegin
		}
	}
	if in && !out && len(notes) == 1 {
		for level := 1; level < len(notes[0].note.Beams); level++ {
			notes[0].note.Beams[level] = sheet.HookBackward
		}
	}
}

// bracket takes the bracket off a tuplet that the beam covers exactly.
func (b *beamer) bracket(first, last int) {
	t := b.events[first].tile.tuplet
	if b.events[last].tile.tuplet != t || b.events[first].note.BeamIn || b.events[last].note.BeamOut {
		return
	}
	if b.events[first].note.TupletStart && b.events[last].note.TupletStop {
		t.Bracket = false
	}
}
