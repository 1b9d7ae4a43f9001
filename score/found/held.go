package found

import (
	"cmp"
	"fmt"
	"slices"

	"tieover/score/beat"
	"tieover/score/find"
	"tieover/score/heard"
)

// A sequencer lets each key go a little before the next is struck: a few ticks early, or
// after nine tenths of the note. These gaps are no rests of the music.

// A note in ticks, and how far the next onset is; 0 after the last.
type keyed struct{ at, length, next int64 }

// Bounds of what is taken for a gap: the ways that are tried, and the ticks of one note,
// so that two can be multiplied.
const (
	mostGaps  = 16
	mostTicks = 1 << 30
)

// shortestRest is how long a rest of a plain pulse must be at least to be one of the music.
var shortestRest = beat.Of(1, 16)

// fullLengths returns the attacks as if all keys were held for the whole note, where all
// are let go the same number of ticks early, or after the same share of the note, to within
// one tick: less than a quarter of the note. early says which; "" where the lengths are no
// such, and the attacks are unchanged.
func fullLengths(attacks []heard.Attack, from, to, tick beat.Span) (full []heard.Attack, early string) {
	var line []heard.Attack
	for _, a := range attacks {
		if a.Onset.Cmp(from) >= 0 && a.Onset.Cmp(to) < 0 {
			line = append(line, a)
		}
	}
	notes, pulse := keyedNotes(line, from, tick)
	if pulse == 0 {
		return attacks, ""
	}
	lengths, early := withoutGap(notes, pulse, tick)
	if lengths == nil {
		lengths, early = withoutShare(notes, pulse)
	}
	if lengths == nil {
		return attacks, ""
	}
	for i := range line {
		line[i].Length = tick.Times(lengths[i])
	}
	return line, early
}

// keyedNotes returns the attacks in ticks, and the pulse of their onsets; 0 where they have
// none, or where the lengths have one that can be meant.
func keyedNotes(line []heard.Attack, from, tick beat.Span) (notes []keyed, pulse int64) {
	spans := make([]beat.Span, 0, 2*len(line))
	for _, a := range line {
		spans = append(spans, a.Onset.Sub(from))
	}
	if len(line) < 2 || line[0].Onset == line[len(line)-1].Onset {
		return nil, 0
	}
	onsets, err := find.CommonPulse(spans)
	if err != nil {
		return nil, 0
	}
	whole := true
	for i, a := range line {
		spans = append(spans, a.Length)
		at, _ := spans[i].Over(tick).IsWhole()
		length, _ := a.Length.Over(tick).IsWhole()
		_, counted := a.Length.Over(onsets.Span()).IsWhole()
		whole = whole && counted
		notes = append(notes, keyed{at: at, length: length})
	}
	for i, next := len(notes)-2, notes[len(notes)-1].at; i >= 0; i-- {
		if notes[i].at < notes[i+1].at {
			next = notes[i+1].at
		}
		notes[i].next = next - notes[i].at
	}
	both, err := find.CommonPulse(spans)
	meant := err == nil && !both.IsTuplet() && both.Base.Cmp(shortestRest) >= 0
	ticks, counted := onsets.Span().Over(tick).IsWhole()
	if whole || meant || !counted || slices.ContainsFunc(notes, func(n keyed) bool { return max(n.length, n.next) > mostTicks }) {
		return nil, 0
	}
	return notes, ticks
}

// gaps returns different notes that end less than a quarter early before the next onset,
// the longest first.
func gaps(notes []keyed, same func(a, b keyed) bool) []keyed {
	var all []keyed
	for _, n := range notes {
		if n.length < n.next && 4*n.length > 3*n.next && !slices.ContainsFunc(all, func(a keyed) bool { return same(a, n) }) {
			if all = append(all, n); len(all) == mostGaps {
				break
			}
		}
	}
	slices.SortStableFunc(all, func(a, b keyed) int { return cmp.Compare(b.next, a.next) })
	return all
}

// withoutGap returns how long the notes are if all end the same number of ticks early; nil
// if they do not.
func withoutGap(notes []keyed, pulse int64, tick beat.Span) (lengths []int64, early string) {
	for _, g := range gaps(notes, func(a, b keyed) bool { return a.next-a.length == b.next-b.length }) {
		gap := g.next - g.length
		lengths = fill(notes, func(n keyed) (int64, bool) {
			length := n.length + gap
			return length, length%pulse == 0 && 4*gap < length
		})
		if lengths != nil {
			return lengths, fmt.Sprintf("%v of a whole note early", tick.Times(gap))
		}
	}
	return nil, ""
}

// withoutShare returns how long the notes are if all last the same share of that; nil if
// they do not.
func withoutShare(notes []keyed, pulse int64) (lengths []int64, early string) {
	for _, g := range gaps(notes, func(a, b keyed) bool { return a.length*b.next == b.length*a.next }) {
		lengths = fill(notes, func(n keyed) (int64, bool) {
			pulses := (2*n.length*g.next/g.length + pulse) / (2 * pulse) // the nearest
			off := pulses*pulse*g.length - n.length*g.next               // ticks times g.next
			return pulses * pulse, max(off, -off) < g.next
		})
		if lengths != nil {
			percent, _ := beat.Of(100*g.length, g.next).Decimal()
			return lengths, "after " + percent + " % of their length"
		}
	}
	return nil, ""
}

// fill returns the length of each note; nil if some has none or would go on under the next
// one although it did not.
func fill(notes []keyed, length func(keyed) (ticks int64, ok bool)) []int64 {
	all := make([]int64, len(notes))
	for i, n := range notes {
		ticks, ok := length(n)
		if !ok || ticks < n.length || n.next > 0 && n.length <= n.next && ticks > n.next {
			return nil
		}
		all[i] = ticks
	}
	return all
}
