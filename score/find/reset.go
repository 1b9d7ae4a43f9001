package find

import (
	"sort"
	"strings"

	"tieover/score/beat"
	"tieover/score/process"
)

// mostListed is how many cycles are written one by one.
const mostListed = 256

// resetsAtRealignments reports whether the section's layers come together just
// when their processes start over, by arithmetic: all are cycles of one length
// that begin with their heads. A single layer comes together with the barline.
func (w *writer) resetsAtRealignments(layers []Found) bool {
	period := w.plan.Bar
	switch {
	case len(layers) > 1:
		period = beat.Span{}
	case w.plan.Meter == "":
		period = beat.Of(1, 1) // the spec's own default, 4/4
	}
	if len(layers) == 1 && period.Sign() == 0 {
		return false // the meter changes
	}
	for _, f := range layers {
		d := f.Ranked[0]
		_, leaves, _ := w.leaves(f, d)
		if leaves || d.Literal || d.Lead > 0 || d.CutEvery > 0 || d.Stretches != nil || d.changesLength() || d.has(process.Rotate) || d.has(process.Shift) {
			return false
		}
		var ok bool
		if period, ok = lengthOfBoth(period, f.List.Pulse.Span().Times(d.Length())); !ok {
			return false
		}
	}
	for _, f := range layers {
		d := f.Ranked[0]
		if d.Reset > 0 && f.List.Pulse.Span().Times(d.Length()*d.Reset) != period {
			return false
		}
	}
	return true
}

// changesLength reports whether the cycle gets longer or shorter.
func (d *Description) changesLength() bool {
	if d.Melody != nil {
		return true
	}
	for _, p := range d.Process {
		if p.Kind == process.Append || p.Kind == process.Grow && p.From == 0 {
			return true
		}
	}
	return false
}

// lengthOfBoth returns the smallest length that is a multiple of both; zero counts
// as no length yet.
func lengthOfBoth(a, b beat.Span) (beat.Span, bool) {
	if a.Sign() == 0 {
		return b, true
	}
	den, ok := beat.LCM(a.Den(), b.Den())
	if !ok {
		return beat.Span{}, false
	}
	num, ok := beat.LCM(a.Num()*(den/a.Den()), b.Num()*(den/b.Den()))
	return beat.Of(num, den), ok
}

// cyclesAsList writes the cycles until the processes start over one by one, which a
// spec takes in turn, and the series dealt to each if it starts over with the
// cycle. ok is false when they cannot be listed: too many, or short strokes late
// in their groups.
func (f Found) cyclesAsList(d *Description, series string) (groups, pitches string, ok bool) {
	if d.Reset > mostListed || d.Strike == Short && d.has(process.Retrograde) {
		return "", "", false
	}
	byCycle := series != "" && !d.Series.Own && len(d.Series.Chords) > 1
	var cycles, dealt []string
	c := newCycles(d)
	for range d.Reset {
		played := c.playedGroups()
		items := make([]Item, len(played))
		var chords []string
		for i, at := range orders(played) {
			items[i] = itemOf(played[i])
			if items[i].Size > mostSize || len(items) > mostGroups {
				return "", "", false
			}
			if byCycle && !items[i].Blank {
				chords = append(chords, f.chord(d.Series.Chords[at%len(d.Series.Chords)]))
			}
		}
		cycles = append(cycles, GroupsText(items))
		dealt = append(dealt, strings.Join(chords, " "))
		c.step()
	}
	if byCycle {
		series = "[" + strings.Join(dealt, ", ") + "]"
	}
	return "[" + strings.Join(cycles, ", ") + "]", series, true
}

// cyclesAsBoxes is cyclesAsList for cycles that are moved inside themselves: they are
// written as boxes, for a sound may ring over into the next. The second time round is
// written, as the first has nothing before it that could ring on.
func (f Found) cyclesAsBoxes(d *Description, series string) (boxes, pitches string, ok bool) {
	var starts []int64 // of the cycles until they start over twice
	c, now := newCycles(d), d.Lead
	for range 2*d.Reset + 1 {
		starts = append(starts, now)
		now += c.length()
		c.step()
	}
	if d.Reset > mostListed || d.Strike == All || now-starts[2*d.Reset-1] > mostGroups {
		return "", "", false
	}
	played := &List{}
	dealt := make([][]int, d.Reset)
	d.strokes(starts[2*d.Reset], func(s stroke) bool {
		played.Hits = append(played.Hits, Hit{At: s.at, Length: s.length})
		if k := s.cycle - int(d.Reset); k >= 0 && d.Series != nil {
			dealt[k] = append(dealt[k], d.Series.Chords[s.order%len(d.Series.Chords)])
		}
		return true
	})
	var rows, texts []string
	for k := range d.Reset {
		start := starts[d.Reset+k]
		row := played.box(start, starts[d.Reset+k+1]-start)
		if len(row) > mostGroups || !strings.Contains(row, "x") {
			return "", "", false
		}
		rows = append(rows, row)
		texts = append(texts, f.chords(dealt[k]))
	}
	if series != "" && !d.Series.Own && len(d.Series.Chords) > 1 {
		series = "[" + strings.Join(texts, ", ") + "]"
	}
	return "[" + strings.Join(rows, ", ") + "]", series, true
}

// box writes the list from a moment on, one sign a pulse.
func (l *List) box(from, length int64) string {
	signs := []byte(strings.Repeat(".", int(length)))
	first := sort.Search(len(l.Hits), func(i int) bool { return l.Hits[i].At+l.Hits[i].Length > from })
	for _, h := range l.Hits[first:] {
		if h.At >= from+length {
			break
		}
		for k := range h.Length {
			if at := h.At + k - from; at >= 0 && at < length {
				signs[at] = '='
			}
		}
		if h.At >= from {
			signs[h.At-from] = 'x'
		}
	}
	return string(signs)
}
