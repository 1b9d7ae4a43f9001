package find

import (
	"fmt"
	"math"
	"slices"

	"tieover/score/beat"
	"tieover/score/heard"
)

// Taps is how a list was made from onsets that someone tapped or played. Here
// alone times are measured seconds, and so not exact.
type Taps struct {
	Pulse      float64 // seconds that one pulse lasts, on average
	Tempo      float64 // quarters a minute
	Estimated  bool    // the tempo was not given
	Deviations []Deviation
	Worst      float64 // the largest deviation in seconds
}

// Deviation is a tap that is farther from its pulse than tolerated.
type Deviation struct {
	Tap     int     // from 1
	Seconds float64 // late, or early when negative
}

// TapOptions says what is known of the taps.
type TapOptions struct {
	Tempo     float64 // quarters a minute; 0: estimate it, the pulse being an eighth
	Tolerance float64 // seconds; 0: a fifth of the pulse, at most 0.04
}

// mostOff: a pulse is right if at most one tap of so many is off it.
const mostOff = 10

// mostTaps bounds what is read.
const mostTaps = 200_000

// FromOnsets finds the pulse on which the onsets lie and returns them as a
// list. The last one has no length of its own and is given one pulse.
//
// Each tap is counted from the one before, half of whose deviation is taken as
// the player's new place and a tenth as a new tempo; so a drift is followed.
func FromOnsets(onsets []float64, o TapOptions) (*List, *Taps, error) {
	if len(onsets) < 3 {
		return nil, nil, fmt.Errorf("%d onsets; at least 3 are needed", len(onsets))
	}
	if len(onsets) > mostTaps {
		return nil, nil, fmt.Errorf("%d onsets; at most %d are read", len(onsets), mostTaps)
	}
	for i, t := range onsets {
		switch {
		case math.IsNaN(t) || math.IsInf(t, 0) || t < 0 || t > 1e7:
			return nil, nil, fmt.Errorf("onset %d is no time in seconds", i+1)
		case i > 0 && t <= onsets[i-1]:
			return nil, nil, fmt.Errorf("onset %d is not after the one before", i+1)
		}
	}
	var best *tapFit
	for _, c := range o.pulses(onsets) {
		fit := fitTaps(onsets, c, o.Tolerance)
		if fit == nil {
			continue
		}
		off := len(fit.taps.Deviations)
		if best == nil || off < len(best.taps.Deviations) {
			best = fit
		}
		if off*mostOff <= len(onsets) { // coarser pulses come first; a fine enough one fits anything
			best = fit
			break
		}
	}
	if best == nil {
		return nil, nil, fmt.Errorf("no pulse can be found in the onsets; give the tempo")
	}
	l := &List{Pulse: best.pulse, Chords: [][]heard.Tone{{{}}}}
	now := int64(0)
	for i := range onsets {
		length := int64(1)
		if i < len(best.counts) {
			length = best.counts[i]
		}
		l.Hits = append(l.Hits, Hit{At: now, Length: length})
		now += length
	}
	l.End = now
	return l, best.taps, l.check()
}

// tapPulse is a pulse to try.
type tapPulse struct {
	pulse   beat.Pulse
	seconds float64
	refine  bool // the seconds are a guess
}

// pulses lists the pulses to try, the coarsest first: note values at the given
// tempo, or simple parts of the shortest distance between taps.
func (o TapOptions) pulses(onsets []float64) []tapPulse {
	var all []tapPulse
	if o.Tempo > 0 {
		quarter := 60 / o.Tempo
		for _, p := range []struct {
			pulse beat.Pulse
			parts float64
		}{
			{beat.Plain(beat.Of(1, 4)), 1}, {beat.Plain(beat.Of(1, 8)), 2},
			{beat.Pulse{Base: beat.Of(1, 8), Actual: 3, Normal: 2}, 3}, {beat.Plain(beat.Of(1, 16)), 4},
			{beat.Pulse{Base: beat.Of(1, 16), Actual: 3, Normal: 2}, 6}, {beat.Plain(beat.Of(1, 32)), 8},
		} {
			all = append(all, tapPulse{p.pulse, quarter / p.parts, false})
		}
		return all
	}
	short := shortest(onsets)
	for parts := 1; parts <= 4; parts++ {
		all = append(all, tapPulse{beat.Plain(beat.Of(1, 8)), short / float64(parts), true})
	}
	return all
}

// shortest returns the usual length of the shortest distances between taps:
// the median of those within a third of the least.
func shortest(onsets []float64) float64 {
	gaps := make([]float64, len(onsets)-1)
	for i := range gaps {
		gaps[i] = onsets[i+1] - onsets[i]
	}
	slices.Sort(gaps)
	n := 0
	for n < len(gaps) && gaps[n] <= gaps[0]*4/3 {
		n++
	}
	return gaps[n/2]
}

type tapFit struct {
	pulse  beat.Pulse
	counts []int64
	taps   *Taps
}

// fitTaps counts the taps on a pulse; nil when that cannot be.
func fitTaps(onsets []float64, c tapPulse, tolerance float64) *tapFit {
	seconds := c.seconds
	var counts []int64
	var off []float64
	for range 4 { // a guess is bettered by what it counts
		counts, off = count(onsets, seconds)
		if counts == nil {
			return nil
		}
		if !c.refine {
			break
		}
		total := int64(0)
		for _, n := range counts {
			total += n
		}
		seconds = (onsets[len(onsets)-1] - onsets[0]) / float64(total)
	}
	if tolerance <= 0 {
		tolerance = min(0.04, seconds/5)
	}
	quarter := seconds / (4 * ratio(c.pulse.Span()))
	taps := &Taps{Pulse: seconds, Tempo: 60 / quarter, Estimated: c.refine}
	for i, d := range off {
		taps.Worst = max(taps.Worst, math.Abs(d))
		if math.Abs(d) > tolerance {
			taps.Deviations = append(taps.Deviations, Deviation{i + 1, d})
		}
	}
	return &tapFit{c.pulse, counts, taps}
}

func ratio(s beat.Span) float64 { return float64(s.Num()) / float64(s.Den()) }

// count counts pulses from tap to tap and says how far each tap is off.
func count(onsets []float64, seconds float64) (counts []int64, off []float64) {
	place, local := onsets[0], seconds
	off = make([]float64, len(onsets))
	for i := 1; i < len(onsets); i++ {
		n := math.Round((onsets[i] - place) / local)
		if n < 1 || n > 1<<20 {
			return nil, nil
		}
		counts = append(counts, int64(n))
		place += n * local
		off[i] = onsets[i] - place
		place += off[i] / 2
		local = min(max(local+off[i]/n/10, seconds*3/4), seconds*5/4)
	}
	return counts, off
}
