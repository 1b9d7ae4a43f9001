package align

import (
	"cmp"
	"math"
	"slices"
	"strconv"
)

// Pulse is the unit in which taps are counted, and how a player keeps it.
type Pulse struct {
	Milliseconds float64 // that one lasts at the start
	Parts        int     // of a quarter; 0: not known
	Swing        Swing

	bits   float64 // that it takes to say it
	unsure float64 // standard deviation of its length at the start, as a share of it
	wander float64 // how far the player's place wanders, as a share of it
	drifts float64 // how far its length wanders in a quarter of a second, as a share of it
}

// Swing is how the two pulses of each pair share their time; the zero value is
// straight.
type Swing struct{ Long, Short int }

// String writes the ratio as "2:1"; "" where it is straight.
func (s Swing) String() string {
	if s == (Swing{}) {
		return ""
	}
	return strconv.Itoa(s.Long) + ":" + strconv.Itoa(s.Short)
}

// swings are the ratios that are tried: lightly swung, as a triplet, as a dotted
// value (common practice).
var swings = []Swing{{60, 40}, {2, 1}, {3, 1}}

// span returns how long d pulses last, in straight pulses, from the first or the
// second of a pair on.
func (p *Pulse) span(second bool, d int) float64 {
	if p.Swing == (Swing{}) || d%2 == 0 {
		return float64(d)
	}
	first := 2 * float64(p.Swing.Long) / float64(p.Swing.Long+p.Swing.Short)
	if second {
		return float64(d) + 1 - first
	}
	return float64(d) - 1 + first
}

// isSwung reports whether there is a pulse whose pairs are of a long and a short one.
func (p *Pulse) isSwung() bool { return p != nil && p.Swing != Swing{} }

// Bounds of the pulses that are tried, in milliseconds, and what is assumed of a
// player: where the tempo is given the pulse is known to 1 %, else to 2 %; in a quarter
// of a second the place wanders 2.5 ms and the pulse 0.15 %.
const (
	shortestPulse  = 70
	longestPulse   = 1500
	longestPeak    = 1300
	longestSwung   = 450 // no pair of pulses is heard as swung that takes a second (common practice)
	unsureGiven    = 0.01
	unsureGuessed  = 0.02
	placeWander    = 0.01
	pulseWander    = 0.0015
	wanderTime     = 250
	drifting       = 4   // times the usual wandering of a pulse that slows down or speeds up
	mostPulses     = 14  // whose readings are aligned
	pulseOnAttacks = 600 // of a long take, the pulse is chosen on so many
	longTake       = 800
)

// pulses lists the pulses to try, none shorter than twice what a tap may be off.
func (o Options) pulses(taps []float64) []*Pulse {
	var all []*Pulse
	add := func(p Pulse, swing bool, swingBits float64) {
		if p.Milliseconds < 2*o.Tolerance {
			return
		}
		all = append(all, &p)
		for _, s := range swings {
			if q := p; swing {
				q.Swing, q.bits = s, q.bits+swingBits
				all = append(all, &q)
			}
		}
	}
	if o.Quarter > 0 {
		for _, parts := range []int{1, 2, 3, 4, 6, 8} {
			p := Pulse{Milliseconds: o.Quarter / float64(parts), Parts: parts, bits: math.Log2(6) + 1, unsure: unsureGiven, wander: placeWander, drifts: pulseWander}
			add(p, parts == 2 || parts == 4, 3)
		}
		return all
	}
	guesses := guessPulses(taps)
	for _, ms := range guesses {
		add(Pulse{Milliseconds: ms, bits: math.Log2(float64(len(guesses))) + 1, unsure: unsureGuessed, wander: placeWander, drifts: pulseWander}, ms <= longestSwung, 8)
	}
	return all
}

// guessPulses returns lengths in milliseconds on which many distances between
// taps are whole: the peaks of the mean of cos(2πΔ/pulse) over the distances Δ, simple
// parts and multiples of the best, and parts of the usual shortest distance.
func guessPulses(taps []float64) []float64 {
	var guesses []float64
	put := func(ms float64) {
		if ms < shortestPulse || ms > longestPulse || slices.ContainsFunc(guesses, func(g float64) bool { return math.Abs(g/ms-1) < 0.02 }) {
			return
		}
		guesses = append(guesses, ms)
	}
	best := peaks(distances(taps))
	for _, ms := range best[:min(6, len(best))] {
		put(ms)
	}
	for _, ms := range best[:min(3, len(best))] {
		for _, times := range []float64{0.5, 1.5, 2, 2.0 / 3, 0.75, 1.0 / 3, 2.5} {
			put(ms * times)
		}
	}
	short := shortestGap(taps)
	for parts := 1.0; parts <= 3; parts++ {
		put(short / parts)
	}
	return guesses
}

// distances lists how far apart taps are that are near each other.
func distances(taps []float64) []float64 {
	const neighbors, farthest = 6, 3000
	var all []float64
	n := min(len(taps), pulseOnAttacks)
	for i := range n {
		for j := i + 1; j < min(n, i+1+neighbors) && taps[j]-taps[i] < farthest; j++ {
			all = append(all, taps[j]-taps[i])
		}
	}
	return all
}

// peaks returns the lengths that most distances are multiples of, the best
// first.
func peaks(distances []float64) []float64 {
	const step, least = 1.006, 0.05
	type tried struct{ ms, score float64 }
	var all, top []tried
	for ms := float64(shortestPulse); ms < longestPeak; ms *= step {
		sum := 0.0
		for _, d := range distances {
			sum += math.Cos(2 * math.Pi * d / ms)
		}
		all = append(all, tried{ms, sum / float64(len(distances))})
	}
	for i := 1; i+1 < len(all); i++ {
		if here := all[i].score; here > all[i-1].score && here >= all[i+1].score && here > least {
			top = append(top, all[i])
		}
	}
	slices.SortStableFunc(top, func(a, b tried) int { return cmp.Compare(b.score, a.score) })
	best := make([]float64, len(top))
	for i, t := range top {
		best[i] = t.ms
	}
	return best
}

// shortestGap returns the usual length of the shortest distances from tap to
// tap: the median of those within a third of the least.
func shortestGap(taps []float64) float64 {
	gaps := make([]float64, len(taps)-1)
	for i := range gaps {
		gaps[i] = taps[i+1] - taps[i]
	}
	slices.Sort(gaps)
	n := 0
	for n < len(gaps) && gaps[n] <= gaps[0]*4/3 {
		n++
	}
	return gaps[n/2]
}
