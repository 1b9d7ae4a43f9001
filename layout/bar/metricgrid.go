package bar

import (
	"slices"
	"sort"

	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/beat"
)

// MetricGrid is how strongly each place of a bar divides it. Levels: 0 the bar's
// ends; 1 the middle of a simple bar of 2, 4 or 8 beats and of a compound bar
// with an even number of beats, or the start of a group of an additive bar; 2
// another beat; 3 half a simple beat, or a pulse of a compound or additive one;
// one more for each further halving.
//
// In a pickup, the end of a bar, times count from where the pickup begins: points
// of the time before it are negative, and so may be the first of the other starts.
type MetricGrid struct {
	Length   beat.Time
	Skipped  beat.Time   // of a pickup: how much of the bar lies before it
	points   []beat.Time // the whole bar's ends, beats and pulses, in order
	levels   []int       // of the points
	halving  int         // the level of the middle between two neighboring points
	beats    []beat.Time // starts of the beats, and the bar's end
	dotted   bool        // compound or additive: stronger divisions are never hidden
	compound bool
	additive bool
	spans    []beat.Time // starts of the spans a beam by the meter may fill, and the bar's end
	twos     []beat.Time // the spans of a plain bar of 5, 7, 10, 11 … eighths, which rests fill too; else nil
	pairs    []beat.Time // the wider spans that a beam of eighths alone may fill; the same as spans if there are none
}

// NewMetricGrid returns the grid of a bar of the signature, in ticks of grid.
func NewMetricGrid(sig score.Signature, grid beat.Grid) *MetricGrid {
	m := &MetricGrid{compound: sig.IsCompound(), additive: sig.IsAdditive()}
	m.dotted = m.compound || m.additive
	m.halving = 3
	if m.dotted {
		m.halving = 4
	}
	add := func(t beat.Time, level int) {
		m.points = append(m.points, t)
		m.levels = append(m.levels, level)
	}
	at := beat.Time(0)
	lengths := sig.Beats()
	middle := m.middle(len(lengths))
	pulses := pulsesOf(sig)
	for i, span := range lengths {
		level := 2
		switch {
		case i == 0:
			level = 0
		case m.additive || i == middle:
			level = 1
		}
		length := grid.Must(span)
		m.beats = append(m.beats, at)
		add(at, level)
		if m.dotted {
			for p := 1; p < pulses[i]; p++ {
				add(at+length/beat.Time(pulses[i])*beat.Time(p), 3)
			}
		}
		at += length
	}
	m.Length = at
	m.beats = append(m.beats, at)
	add(at, 0)
	m.beamSpans(sig)
	return m
}

// After returns the grid of a pickup: the bar without the first t of it.
func (m *MetricGrid) After(t beat.Time) *MetricGrid {
	if t == 0 {
		return m
	}
	out := *m
	m = &out
	m.Skipped, m.Length = t, m.Length-t
	shifted := func(places []beat.Time) []beat.Time {
		out := make([]beat.Time, len(places))
		for i, at := range places {
			out[i] = at - t
		}
		return out
	}
	m.points = shifted(m.points)
	if m.twos != nil {
		m.twos = shifted(m.twos)
	}
	for _, starts := range []*[]beat.Time{&m.beats, &m.spans, &m.pairs} {
		all := shifted(*starts)
		*starts = all[spanOf(all, 0):]
	}
	return m
}

// middle returns the index of the beat that halves a bar of equal beats, or -1.
func (m *MetricGrid) middle(beats int) int {
	if m.compound && beats%2 == 0 || beats == 2 || beats == 4 || beats == 8 {
		return beats / 2
	}
	return -1
}

// pulsesOf returns how many pulses each beat of a compound or additive
// signature has.
func pulsesOf(sig score.Signature) []int {
	if sig.IsCompound() {
		return slices.Repeat([]int{3}, len(sig.Beats()))
	}
	var pulses []int
	for _, t := range sig.Terms {
		pulses = append(pulses, t.Groups...)
	}
	return pulses
}

// beamSpans decides what a beam by the meter joins: a beat of a quarter or
// more, a dotted beat, a group. Two quarters share a beam in 2/4 and 4/4 while
// nothing shorter than an eighth stands there. Bars counted in eighths or less
// without groups are beamed in twos with a three at the end (common practice).
func (m *MetricGrid) beamSpans(sig score.Signature) {
	term := sig.Terms[0]
	n := term.Groups[0]
	if m.dotted || term.Unit <= 4 {
		m.spans = m.beats
		m.pairs = m.beats
		if !m.dotted && term.Unit == 4 && (n == 2 || n == 4) {
			m.pairs = everyNth(m.beats, 2)
		}
		return
	}
	switch {
	case n <= 3:
		m.spans = []beat.Time{0, m.Length}
	case n%4 == 0 && n > 4:
		m.spans = everyNth(m.beats, 4)
	default:
		m.spans = everyNth(m.beats, 2)
		if n%2 == 1 { // the last pair and the single beat after it
			m.spans = append(m.spans[:len(m.spans)-2], m.Length)
		}
		m.twos = m.spans
	}
	m.pairs = m.spans
}

// everyNth keeps the first of each n places, and the last one.
func everyNth(places []beat.Time, n int) []beat.Time {
	var kept []beat.Time
	for i := 0; i < len(places)-1; i += n {
		kept = append(kept, places[i])
	}
	return append(kept, places[len(places)-1])
}

// offGrid is the level of a place that no halving reaches.
const offGrid = 99

// level returns how weakly t divides the bar.
func (m *MetricGrid) level(t beat.Time) int {
	if t == 0 {
		return 0
	}
	i := spanOf(m.points, t)
	if m.points[i] == t {
		return m.levels[i]
	}
	past, gap := t-m.points[i], m.points[i+1]-m.points[i]
	for k := 1; k <= sheet.Shortest; k++ {
		if past<<k%gap == 0 {
			return m.halving + k - 1
		}
	}
	return offGrid
}

// strongest returns the places strictly inside (from, to) that have the least
// level there, in order. None if no halving reaches in.
func (m *MetricGrid) strongest(from, to beat.Time) []beat.Time {
	var best []beat.Time
	least := offGrid
	span := spanOf(m.points, from)
	for i := span; m.points[i] < to; i++ {
		if m.points[i] <= from || m.levels[i] > least {
			continue
		}
		if m.levels[i] < least {
			best, least = best[:0], m.levels[i]
		}
		best = append(best, m.points[i])
	}
	if best != nil {
		return best
	}
	start, gap := m.points[span], m.points[span+1]-m.points[span]
	for k := 1; k <= sheet.Shortest && gap%2 == 0; k++ {
		gap /= 2
		first := start + ((from-start)/gap+1)*gap
		for t := first; t < to; t += gap {
			best = append(best, t)
		}
		if best != nil {
			return best
		}
	}
	return nil
}

// onBeat reports whether t is the start of a beat, or the bar's end.
func (m *MetricGrid) onBeat(t beat.Time) bool {
	_, found := slices.BinarySearch(m.beats, t)
	return found
}

// hidden counts the beats strictly inside (from, to).
func (m *MetricGrid) hidden(from, to beat.Time) int {
	n := 0
	for _, b := range m.beats {
		if from < b && b < to {
			n++
		}
	}
	return n
}

// spanOf returns the index of the last of the given starts at or before t.
func spanOf(starts []beat.Time, t beat.Time) int {
	return sort.Search(len(starts), func(i int) bool { return starts[i] > t }) - 1
}
