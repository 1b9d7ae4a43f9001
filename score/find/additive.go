package find

import (
	"math"
	"slices"

	"tieover/score/process"
)

// Bounds of additive melodies.
const (
	mostFirst     = 4 // times √2n, groups of the first cycle
	mostEach      = 4 // cycles between changes
	wholeAdditive = 4 // cycles that make one worth telling, whatever it saves
)

// additive finds a melody in equal values that is played with one tone more each
// time: 1, 1 2, 1 2 3 … The rhythm alone does not tell where its cycles begin. A
// melody whose pitches simply come again is none.
func (ln *line) additive(l *List) []*Description {
	n := len(ln.items)
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
	for first := 1; float64(first) <= mostFirst*math.Sqrt(float64(2*n)) && first < n; first++ {
		for each := 1; each <= mostEach; each++ {
			series, rounds, whole := growing(chords, first, each)
			if whole < max(wholeAdditive, 2*each+1) {
				continue
			}
			d := &Description{Groups: ln.items[:first], Lead: ln.lead, additive: true,
				Process: []process.Rule{{Kind: process.Append, Size: int(ln.items[0].Size), After: each}},
				Series:  &Series{Chords: series, Rounds: rounds}}
			if d.fits(ln.hits, ln.end) {
				ln.endOf(d)
				found = append(found, d)
			}
		}
	}
	return found
}

// growing returns the series of which each cycle takes one tone more than `each`
// cycles before; whole is how many cycles are heard to their end, 0 when there is no
// such series.
func growing(chords []int, first, each int) (series []int, rounds, whole int) {
	for at := 0; at < len(chords); rounds++ {
		length := first + rounds/each
		for i, c := range chords[at:min(at+length, len(chords))] {
			if i == len(series) {
				series = append(series, c)
			}
			if series[i] != c {
				return nil, 0, 0
			}
		}
		if at += length; at <= len(chords) {
			whole++
		}
	}
	return series, rounds, whole
}
