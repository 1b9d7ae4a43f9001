package find

import (
	"cmp"
	"slices"
)

// Bounds of the melodies that are looked for with slips.
const (
	fewestTones  = 10
	mostTones    = 400
	longestFirst = 24 // tones of the first cycle
	mostMelodies = 6  // that are aligned
	mostShifts   = 3  // slips that move what follows
	mostMoved    = 8  // tones by which slips may move a cycle
)

// melodySearch looks for a melody in nearly equal values whose cycles take on tones, or
// lose them, with slips: tones left out, put in, exchanged, other ones, or of another
// length.
type melodySearch struct {
	l      *List
	size   int64 // of most tones
	chords []int
}

// slippedMelodies returns the shortest such description; none where all is exact.
func (l *List) slippedMelodies(literal *Description) []*Description {
	n := len(l.Hits)
	if len(l.Chords) < 2 || n < fewestTones || n > mostTones {
		return nil
	}
	size, ok := l.usualLength()
	if !ok {
		return nil
	}
	s := &melodySearch{l: l, size: size, chords: l.literalSeries().Chords}
	if _, again := ownSeries(s.chords); again {
		return nil
	}
	base := l.bareBits(literal)
	var best *Description
	for _, p := range s.candidates() {
		if d := s.describe(p); d != nil && (best == nil || d.Bits() < best.Bits()) {
			best = d
		}
	}
	if best == nil {
		return nil
	}
	if best.Saved = base - best.Bits(); best.Saved <= leastBits || best.Exceptions() == 0 || !best.isMostlyPlain() {
		return nil
	}
	return []*Description{best}
}

// usualLength returns how long three of four attacks or more last until the next. ok is
// false when there is no such length, or silence.
func (l *List) usualLength() (size int64, ok bool) {
	times := map[int64]int{}
	for i, h := range l.Hits {
		if i+1 == len(l.Hits) {
			break // how long the last one lasts says nothing
		}
		if l.Hits[i+1].At != h.At+h.Length {
			return 0, false
		}
		if times[h.Length]++; times[h.Length] > times[size] {
			size = h.Length
		}
	}
	return size, 4*times[size] >= 3*(len(l.Hits)-1)
}

// playedMelody is a melody with its series.
type playedMelody struct {
	Melody
	series []int
	wrong  int // tones of the list that are otherwise
	bits   float64
}

// candidates returns the melodies that take the fewest bits if each tone that is not
// theirs is an exception.
func (s *melodySearch) candidates() []playedMelody {
	var all []playedMelody
	n := len(s.chords)
	most := s.l.seriesBits(&Series{Chords: s.chords})
	for m := range melodies(min(longestFirst, n/2), 2, 2) {
		if m.countCycles(n) < wholeAdditive {
			continue
		}
		if p, ok := s.likeliest(m); ok && p.bits < most {
			all = append(all, p)
		}
	}
	slices.SortStableFunc(all, func(a, b playedMelody) int { return cmp.Compare(a.bits, b.bits) })
	return all[:min(mostMelodies, len(all))]
}

// likeliest returns the melody with the series that most tones agree on. A slip may move
// all that follows by a tone: each cycle is tried as one that has such a slip, and while that
// takes fewer bits one more. ok is false when there is no such series.
func (s *melodySearch) likeliest(m Melody) (best playedMelody, ok bool) {
	cycles := m.countCycles(len(s.chords))
	moved := make([]int, cycles)
	best, ok = s.vote(m, moved)
	if 2*best.wrong > len(s.chords) {
		return best, false // slips are few
	}
	for range mostShifts {
		at, by := -1, 0
		for cycle := range cycles {
			for _, tried := range []int{1, -1} {
				if moved[cycle] != 0 {
					continue
				}
				moved[cycle] = tried
				if p, said := s.vote(m, moved); said && (!ok || p.bits < best.bits) {
					best, ok, at, by = p, true, cycle, tried
				}
				moved[cycle] = 0
			}
		}
		if at < 0 {
			break
		}
		moved[at] = by
	}
	return best, ok
}

// countCycles returns how many cycles begin in so many tones.
func (m Melody) countCycles(n int) (cycles int) {
	for at := 0; at < n && m.Tones(cycles) > 0; cycles++ {
		at += m.Tones(cycles)
	}
	return cycles
}

// place returns which tone of the series a tone of a cycle is: counted from the series'
// end where the cycles have their last tone in common.
func (m Melody) place(cycle, tone int) int {
	if m.Front {
		return m.Tones(cycle) - 1 - tone
	}
	return tone
}

// vote makes the series of what most cycles have at each place. moved is by how many tones
// a slip in a cycle moves all that follows; such a cycle has no vote.
func (s *melodySearch) vote(m Melody, moved []int) (p playedMelody, ok bool) {
	var votes []map[int]int
	at, wrong := 0, 0 // tones
	var slipped []int // where they begin
	for cycle := 0; at < len(s.chords) && m.Tones(cycle) > 0; cycle++ {
		by := 0
		if cycle < len(moved) {
			by = moved[cycle]
		}
		for tone := range m.Tones(cycle) {
			k := m.place(cycle, tone)
			for len(votes) <= k {
				votes = append(votes, map[int]int{})
			}
			if i := at + tone; i < len(s.chords) && by == 0 {
				votes[k][s.chords[i]]++
				wrong++
			}
		}
		if by != 0 {
			slipped = append(slipped, cycle, at)
		}
		at += m.Tones(cycle) + by
	}
	p.Melody, wrong = m, wrong+max(0, len(s.chords)-at) // after its last cycle nothing is played
	for _, count := range votes {
		chord, most := -1, 0
		for c, n := range count {
			if n > most || n == most && c < chord {
				chord, most = c, n
			}
		}
		if chord < 0 {
			if m.Front {
				return p, false
			}
			break // only the last cycles have it, and not to the end
		}
		p.series, wrong = append(p.series, chord), wrong-most
	}
	for i := 0; i < len(slipped); i += 2 {
		wrong += 1 + s.wrongIn(p, slipped[i], slipped[i+1], moved[slipped[i]])
	}
	p.wrong = wrong
	const slip = 10 // bits, about
	p.bits = s.l.seriesBits(&Series{Chords: p.series}) + float64(wrong)*slip
	return p, len(p.series) > 0
}

// wrongIn counts the tones of a slipped cycle that begins at a tone of the list that are
// not the series', if what follows one of them is so many tones later.
func (s *melodySearch) wrongIn(p playedMelody, cycle, at, by int) int {
	n := p.Tones(cycle)
	is := func(tone, by int) bool {
		i, k := at+tone+by, p.place(cycle, tone)
		return i >= 0 && i < len(s.chords) && k < len(p.series) && s.chords[i] == p.series[k]
	}
	wrong := 0 // if all are later
	for tone := range n {
		if !is(tone, by) {
			wrong++
		}
	}
	least := wrong
	for tone := range n {
		if !is(tone, by) {
			wrong--
		}
		if !is(tone, 0) {
			wrong++
		}
		least = min(least, wrong)
	}
	return least
}

// describe aligns a melody with the list; nil where it ends before the list does, or is
// not heard for long enough.
func (s *melodySearch) describe(p playedMelody) *Description {
	w := s.play(p)
	steps, bits, ok := w.align()
	if !ok {
		return nil
	}
	st := w.stretch(steps)
	if !p.isHeardLongEnough(st.Cycles - 1) {
		return nil
	}
	series := slices.Clone(p.series)
	if p.Front {
		slices.Reverse(series)
	}
	d := &Description{Stretches: []Stretch{st}, Series: &Series{Chords: series, Last: p.Front}}
	d.RhythmBits = kind + valuesBits(st.Groups) + gamma(int64(len(s.chords))) + bits + st.changeBits()
	d.PitchBits = s.l.seriesBits(d.Series)
	return d
}
