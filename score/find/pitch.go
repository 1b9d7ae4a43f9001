package find

import (
	"slices"

	"tieover/score/find/align"
)

// literalSeries is all the pitches, without a pattern; nil for a mere rhythm.
func (l *List) literalSeries() *Series {
	if l.isRhythm() {
		return nil
	}
	chords := make([]int, len(l.Hits))
	for i, h := range l.Hits {
		chords[i] = h.Chord
	}
	return &Series{Chords: chords, Own: true, Literal: true}
}

// isRhythm reports whether every chord is the same bare one.
func (l *List) isRhythm() bool {
	return len(l.Chords) == 1 && len(l.Chords[0]) == 1 && l.Chords[0][0].String() == "x"
}

// seriesBits is what a series costs: its different chords once, how many
// chords it has, then each as one of them; a bit says how it starts over. A cycle that has
// others takes its number and these.
func (l *List) seriesBits(s *Series) float64 {
	if s == nil {
		return 0
	}
	used := map[int]bool{}
	cost := kind + 1 + gamma(int64(len(s.Chords)))
	for i := range s.Order {
		cost += align.ProcessBits(&s.Order[i])
	}
	chords := s.Chords
	for _, other := range s.Others {
		cost += gamma(int64(other.Turn+1)) + gamma(int64(len(other.Chords)))
		chords = append(slices.Clip(chords), other.Chords...)
	}
	if n := len(s.Others); n > 0 {
		cost += gamma(int64(n + 1))
	}
	for _, c := range chords {
		if !used[c] {
			used[c] = true
			cost += gamma(int64(len(l.Chords[c]))) + float64(keyBits*len(l.Chords[c]))
		}
	}
	return cost + gamma(int64(len(used))) + float64(len(chords))*choice(len(used))
}

// leastSeriesBits is what any series takes at least: that of one with each chord once.
func (l *List) leastSeriesBits() float64 {
	if l.isRhythm() {
		return 0
	}
	once := &Series{Chords: make([]int, len(l.Chords))}
	for i := range once.Chords {
		once.Chords[i] = i
	}
	return l.seriesBits(once)
}

// bestSeries returns the cheapest series for the description: one that starts
// over with each cycle, perhaps in another order, one that runs on by its own
// length, or all the pitches.
func (l *List) bestSeries(d *Description) *Series {
	best := l.literalSeries()
	if best == nil {
		return nil
	}
	if own, ok := ownSeries(best.Chords); ok {
		best = &Series{Chords: best.Chords[:own], Own: true}
	}
	s := d.Loop()
	if d.Literal || s.Strike == All || !d.IsExact() {
		return best
	}
	if byCycle := l.seriesByCycle(s); byCycle != nil && l.seriesBits(byCycle) <= l.seriesBits(best) {
		return byCycle
	}
	margin := 0.0
	if best.Literal {
		margin = leastBits
	}
	if in := l.orderedSeries(s); in != nil && l.seriesBits(in)+margin < l.seriesBits(best) {
		return in
	}
	return best
}

// ownSeries returns the smallest period of the pitches. ok is false when it is not heard
// twice in full.
func ownSeries(chords []int) (period int, ok bool) {
	n := len(chords)
	borders := prefixes(n, func(i, j int) bool { return chords[i] == chords[j] })
	p := n - borders[n-1]
	return p, n >= 2*p
}

// SeriesBetween returns the pitches of the attacks from one moment until another, in
// pulses, as the shortest round of them that is heard twice, else all. There must be
// an attack.
func (l *List) SeriesBetween(from, until int64) []int {
	var chords []int
	for _, h := range l.Hits {
		if h.At >= from && h.At < until {
			chords = append(chords, h.Chord)
		}
	}
	if own, ok := ownSeries(chords); ok {
		chords = chords[:own]
	}
	return chords
}

// seriesByCycle returns the series that starts over with each cycle; nil if none explains
// every pitch. A series shorter than the cycle is dealt round again inside it.
func (l *List) seriesByCycle(s *Stretch) *Series {
	var chords []int // by order in the cycle; -1 not yet known
	i, cycles, same := 0, 0, true
	s.Strokes(l.End, func(stroke Stroke) bool {
		for len(chords) <= stroke.Order {
			chords = append(chords, -1)
		}
		if same = i < len(l.Hits) && (chords[stroke.Order] < 0 || chords[stroke.Order] == l.Hits[i].Chord); same {
			chords[stroke.Order] = l.Hits[i].Chord
		}
		i++
		cycles = stroke.Cycle + 1
		return same
	})
	if !same || cycles < 2 || slices.Contains(chords, -1) {
		return nil
	}
	return &Series{Chords: shortestSeries(chords)}
}
