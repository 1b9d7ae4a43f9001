package find

import (
	"iter"
	"math"
	"slices"

	"tieover/score/beat"
	"tieover/score/process"
)

// Bounds of additive melodies.
const (
	mostFirst     = 4 // times √2n: groups of the first cycle
	mostEach      = 4 // cycles between changes
	mostStep      = 3 // tones more or fewer
	wholeAdditive = 4 // whole cycles that make a melody, whatever it saves
)

// Melody is how a melody in equal values gets longer or shorter.
type Melody struct {
	First int  // tones of the first cycle
	Step  int  // tones more each time, fewer if negative
	Each  int  // cycles between changes
	Front bool // they come or go in front; else at the end
}

// Tones returns how many tones a cycle (from 0) has; none when all are gone.
func (m Melody) Tones(cycle int) int { return max(m.First+m.Step*(cycle/m.Each), 0) }

// melodies walks melodies within bounds, those with the fewest tones in the first cycle
// first.
func melodies(first, each, step int) iter.Seq[Melody] {
	return func(yield func(Melody) bool) {
		for f := 1; f <= first; f++ {
			for e := 1; e <= each; e++ {
				for s := 1; s <= step; s++ {
					for _, m := range []Melody{{f, s, e, false}, {f, -s, e, false}, {f, s, e, true}, {f, -s, e, true}} {
						if !yield(m) {
							return
						}
					}
				}
			}
		}
	}
}

// stretch returns the melody in groups of a size, from a moment on. A tone more at the end
// each time is a process.
func (m Melody) stretch(size, at int64) Stretch {
	s := Stretch{Groups: slices.Repeat([]Item{{Size: size}}, m.First), At: at}
	if m.Step == 1 && !m.Front {
		s.Process = []process.Rule{{Kind: process.Append, Size: int(size), After: m.Each}}
	} else {
		s.Melody = &m
	}
	return s
}

// isHeardLongEnough reports whether so many whole cycles are enough to tell: four, and two
// changes.
func (m Melody) isHeardLongEnough(whole int) bool { return whole >= max(wholeAdditive, 2*m.Each+1) }

// bits counts what a melody takes beyond its first cycle and its series.
func (m Melody) bits() float64 {
	return processKind + gamma(int64(m.Each)) + gamma(int64(m.Step)) + 2
}

// String says the changes.
func (m Melody) String() string {
	where, n := "end", max(m.Step, -m.Step)
	if m.Front {
		where = "front"
	}
	what := beat.Counted(n, "tone")
	if m.Step > 0 {
		what += " more"
	} else {
		what += " fewer"
	}
	after := "each time"
	if m.Each > 1 {
		after = "after each " + beat.Counted(m.Each, "time")
	}
	return what + " at the " + where + " " + after
}

// additive finds melodies in equal values that are played with some tones more, or
// fewer, each time: 1, 1 2, 1 2 3 …, or 1 2 3 4, 2 3 4, 3 4, 4. The rhythm alone does not
// tell where its cycles begin. A melody whose pitches simply come again is none.
func (ln *line) additive() []*Description {
	l, n := ln.list, len(ln.items)
	if len(l.Chords) < 2 || ln.strike != Hold || n != len(l.Hits) {
		return nil
	}
	if slices.ContainsFunc(ln.items, func(i Item) bool { return i != ln.items[0] || i.Blank }) {
		return nil
	}
	chords := l.literalSeries().Chords
	if _, again := ownSeries(chords); again {
		return nil
	}
	var found []*Description
	for m := range melodies(min(int(mostFirst*math.Sqrt(float64(2*n))), n-1), mostEach, mostStep) {
		series, whole := m.readSeries(chords)
		if !m.isHeardLongEnough(whole) {
			continue
		}
		s := m.stretch(ln.items[0].Size, ln.lead)
		if s.fits(ln.hits, ln.end) {
			s.cutAt(ln.hits[n-1])
			d := &Description{Stretches: []Stretch{s}, Series: &Series{Chords: series, Last: m.Front}, additive: true}
			d.RhythmBits, d.PitchBits = s.rhythmBits(n), l.seriesBits(d.Series)
			found = append(found, d)
		}
	}
	return found
}

// readSeries returns the series whose first tones, or last, are the cycles; whole is how
// many cycles are heard to their end, 0 when there is no such series.
func (m Melody) readSeries(chords []int) (series []int, whole int) {
	for at, cycle := 0, 0; at < len(chords); cycle++ {
		length := m.Tones(cycle)
		if length == 0 {
			return nil, 0
		}
		for i, c := range chords[at:min(at+length, len(chords))] {
			k := m.place(cycle, i)
			for len(series) <= k {
				series = append(series, -1)
			}
			if series[k] >= 0 && series[k] != c {
				return nil, 0
			}
			series[k] = c
		}
		if at += length; at <= len(chords) {
			whole++
		}
	}
	if slices.Contains(series, -1) {
		return nil, 0
	}
	if m.Front {
		slices.Reverse(series)
	}
	return series, whole
}

// play plays tones of a size from a moment on as Description.Strokes does.
func (m Melody) play(from, size, until int64, yield func(Stroke) bool) (cycles int, rest int64) {
	for now := from; now < until && m.Tones(cycles) > 0; cycles++ {
		start, n := now, m.Tones(cycles)
		for order := 0; order < n && now < until; order++ {
			if !yield(Stroke{now, min(size, until-now), order, cycles}) {
				return cycles + 1, rest
			}
			now += size
		}
		if rest = 0; start+int64(n)*size > until {
			rest = until - start
		}
	}
	return cycles, rest
}
