package find

import (
	"fmt"
	"math"

	"tieover/score/beat"
	"tieover/score/find/align"
	"tieover/score/heard"
)

// Taps is how a list was made from onsets that were tapped or played. These times are
// measured, in seconds; they alone are not exact.
type Taps struct {
	Pulse      float64 // seconds that one pulse lasts, on average
	Tempo      float64 // quarters a minute
	Estimated  bool    // the tempo was not given
	Scatter    float64 // standard deviation of the taps from their places, in seconds
	Swing      align.Swing
	Deviations []Deviation
	Worst      float64 // the largest deviation in seconds
	// OpenEnd is whether the length of the last attack is unknown.
	OpenEnd bool
	// Near are readings on another pulse, or as another loop, that are hardly longer.
	Near []Near
}

// Deviation is a tap that is farther from its pulse than tolerated.
type Deviation struct {
	Tap     int     // from 1
	Seconds float64 // late, or early when negative
}

// Near is a reading that the taps allow as well.
type Near struct {
	Text string
	Bits float64 // more than the first one; negative when fewer
}

// TapOptions is what is known of the taps, and what is allowed.
type TapOptions struct {
	Tempo     float64 // quarters a minute; 0: estimate it, the pulse being an eighth
	Tolerance float64 // seconds that a tap may be off; 0: three times the scatter, at least a fifth of the pulse or 0.04
	// Exceptions is how many a loop may have, as Options.Exceptions.
	Exceptions int
}

// mostTaps bounds the onsets of a part.
const mostTaps = 200_000

// FromOnsets finds the pulse on which the onsets lie, with the loops that they
// have, and returns them as a list. How long the last one lasts is not known: it is
// given its length in the loop, or one pulse.
func FromOnsets(onsets []float64, o TapOptions) (*List, *Taps, error) {
	taps, err := milliseconds(onsets)
	if err != nil {
		return nil, nil, err
	}
	res := align.Taps(taps, o.align())
	if res.Free == nil {
		return nil, nil, o.noPulse(taps)
	}
	best, l := o.choose(&res, 0)
	if err := l.check(); err != nil {
		return nil, nil, err
	}
	t := o.summarize(best, taps)
	t.Near = append(nearReadings(best, res), nearHalved(best)...)
	return l, t, nil
}

// choose makes the list of the best reading, whose first attack is so many pulses from the
// start: the shortest with a loop, if it saves enough and the bare count does not show a
// shorter process; else the bare count.
func (o TapOptions) choose(res *align.Result, first int64) (best *align.Reading, l *List) {
	bare := readingList(res.Free, first)
	bare.tapped = &align.Result{Free: res.Free, Nearest: res.Nearest}
	if len(res.Readings) == 0 || res.Readings[0].Saved <= leastSaving(res.Free) && !o.tolerates(res.Readings[0]) {
		if len(res.Readings) > 0 {
			bare.tapped.Nearest = res.Readings[0]
		}
		return res.Free, bare
	}
	best = res.Readings[0]
	if exact := bare.bestExact(); exact != nil && !exact.IsPlainLoop() && !exact.hasSingleCut(bare.End) && !exact.hasSingleTurn() && exact.Saved > best.Saved {
		return res.Free, bare
	}
	l = readingList(best, first)
	l.tapped = &align.Result{Readings: []*align.Reading{best}, Free: res.Free}
	return best, l
}

// leastSaving is what a loop must save over the bare count: nothing where that is one
// distance over and over, which is itself a loop.
func leastSaving(bare *align.Reading) float64 {
	if bare.IsEven() {
		return 0
	}
	return leastBits
}

// noPulse says why taps cannot be counted, and what to do.
func (o TapOptions) noPulse(taps ...[]float64) error {
	const tooClose = 35 // milliseconds: half of the shortest pulse that is tried
	for _, part := range taps {
		for i := range part[1:] {
			if apart := part[i+1] - part[i]; apart < tooClose {
				return fmt.Errorf("taps %d and %d are %.0f ms apart, too close for any pulse", i+1, i+2, apart)
			}
		}
	}
	switch {
	case o.Tolerance > 0:
		return fmt.Errorf("no pulse can be found that lasts twice the tolerance of %.0f ms; give a smaller one", 1000*o.Tolerance)
	case o.Tempo > 0:
		return fmt.Errorf("no pulse can be found in the onsets at quarter = %g", o.Tempo)
	}
	return fmt.Errorf("no pulse can be found in the onsets; give the tempo")
}

// tolerates reports whether a reading is wanted even if it saves nothing.
func (o TapOptions) tolerates(r *align.Reading) bool {
	return o.Exceptions > 0 && r.Exceptions() <= o.Exceptions
}

// milliseconds checks onsets and returns them in milliseconds.
func milliseconds(onsets []float64) ([]float64, error) {
	if len(onsets) < 3 {
		return nil, fmt.Errorf("%d onsets; at least 3 are needed", len(onsets))
	}
	if len(onsets) > mostTaps {
		return nil, fmt.Errorf("%d onsets; at most %d are read", len(onsets), mostTaps)
	}
	taps := make([]float64, len(onsets))
	for i, t := range onsets {
		switch {
		case math.IsNaN(t) || math.IsInf(t, 0) || t < 0 || t > 1e7:
			return nil, fmt.Errorf("onset %d is no time in seconds", i+1)
		case i > 0 && t <= onsets[i-1]:
			return nil, fmt.Errorf("onset %d is not after the one before", i+1)
		}
		taps[i] = 1000 * t
	}
	return taps, nil
}

func (o TapOptions) align() align.Options {
	a := align.Options{Tolerance: 1000 * o.Tolerance, Exceptions: o.Exceptions}
	if o.Tempo > 0 {
		a.Quarter = 60_000 / o.Tempo
	}
	return a
}

// readingList makes a list of a reading whose first attack is so many pulses from the
// start. A sound before a pause lasts as long as its group.
func readingList(r *align.Reading, first int64) *List {
	l := &List{Pulse: pulseValue(r.Pulse.Parts), Chords: [][]heard.Tone{{{}}}}
	last := int64(max(r.LastGroup(), 1))
	for i, at := range r.Places {
		length := last
		if i+1 < len(r.Places) {
			length = r.Places[i+1] - at
		}
		l.Hits = append(l.Hits, Hit{At: first + at, Length: length})
	}
	for _, s := range r.Segments {
		for _, step := range s.Steps {
			if step.Move == align.Paused {
				l.Hits[step.Attack].Length = int64(step.Pulses)
			}
		}
	}
	l.End = l.Hits[len(l.Hits)-1].At + l.Hits[len(l.Hits)-1].Length
	return l
}

// pulseValue returns the note value of which a quarter has so many; an eighth if that is
// not known.
func pulseValue(parts int) beat.Pulse {
	switch parts {
	case 1:
		return beat.Plain(beat.Of(1, 4))
	case 3:
		return beat.Pulse{Base: beat.Of(1, 8), Actual: 3, Normal: 2}
	case 4:
		return beat.Plain(beat.Of(1, 16))
	case 6:
		return beat.Pulse{Base: beat.Of(1, 16), Actual: 3, Normal: 2}
	case 8:
		return beat.Plain(beat.Of(1, 32))
	}
	return beat.Plain(beat.Of(1, 8))
}

// summarize returns what a reading shows of the taps.
func (o TapOptions) summarize(r *align.Reading, taps []float64) *Taps {
	r.Refine()
	n := len(taps)
	seconds := (taps[n-1] - taps[0]) / 1000 / float64(r.Places[n-1])
	t := &Taps{Pulse: seconds, Scatter: r.Scatter / 1000, Swing: r.Pulse.Swing, OpenEnd: r.LastGroup() == 0}
	t.addLate(r.Late, seconds, o.Tolerance)
	t.setTempo(o, r.Pulse)
	return t
}

// setTempo sets the tempo: the one that is given, else that of the pulse.
func (t *Taps) setTempo(o TapOptions, pulse *align.Pulse) {
	t.Tempo = o.Tempo
	if o.Tempo == 0 {
		t.Estimated, t.Tempo = true, 60/(t.Pulse/(4*ratio(pulseValue(pulse.Parts).Span())))
	}
}

// addLate notes how far taps are off, which is given in milliseconds, and those that are
// farther off than tolerated; pulse and tolerance are in seconds.
func (t *Taps) addLate(late []float64, pulse, tolerance float64) {
	if tolerance <= 0 {
		tolerance = max(min(0.04, pulse/5), 3*t.Scatter)
	}
	for i, ms := range late {
		off := ms / 1000
		t.Worst = max(t.Worst, math.Abs(off))
		if math.Abs(off) > tolerance {
			t.Deviations = append(t.Deviations, Deviation{i + 1, off})
		}
	}
}

func ratio(s beat.Span) float64 { return float64(s.Num()) / float64(s.Den()) }

// How many bits longer a reading may be to be called as near; where one is swung
// and the other is not, more; and where a pulse half as long leaves no tap off.
const (
	nearBits       = 4
	nearSwungBits  = 8
	nearHalvedBits = 10
)

// nearReadings lists the readings of the result that are hardly longer than the best.
func nearReadings(best *align.Reading, res align.Result) (near []Near) {
	said := map[string]bool{readingText(best): true}
	for _, r := range res.Readings {
		limit := float64(nearBits)
		if (r.Pulse.Swing == align.Swing{}) != (best.Pulse.Swing == align.Swing{}) {
			limit = nearSwungBits
		}
		text := readingText(r)
		if said[text] || r.Bits-best.Bits > limit || r.Saved <= leastBits {
			continue
		}
		said[text] = true
		text += fmt.Sprintf(", in pulses of %.0f ms", r.Pulse.Milliseconds)
		if r.Pulse.Swing != (align.Swing{}) {
			text += ", swung " + r.Pulse.Swing.String()
		}
		near = append(near, Near{text, r.Bits - best.Bits})
	}
	return near
}

// nearHalved is the count on a pulse half as long as the reading's, if that brings all taps
// to a place and is hardly longer, as it is in short takes: a tap half a pulse late is
// then as likely on time.
func nearHalved(best *align.Reading) []Near {
	half := best.Halved()
	if half == nil || half.Bits-best.Bits > nearHalvedBits {
		return nil
	}
	groups := readingList(half, 0).gaps()
	text := fmt.Sprintf("%s, in pulses of %.0f ms", GroupsText(groups[:len(groups)-1]), half.Pulse.Milliseconds)
	return []Near{{text, half.Bits - best.Bits}}
}

// readingText says a reading, which may make another list than the best one.
func readingText(r *align.Reading) string {
	l := readingList(r, 0)
	return newLine(l, l.Items(), Hold, 0).describe(r).String()
}
