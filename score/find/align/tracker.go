package align

import (
	"math"
	"slices"
)

// tracker is where in time a player is thought to be: a Kalman filter of the
// place and the length of a pulse, in milliseconds, with their variances.
type tracker struct{ place, pulse, varPlace, varBoth, varPulse float64 }

// outliers is the share of taps that are stray.
const outliers = 0.01

// start returns the tracker at the first tap.
func (p *Pulse) start(tap, scatter float64) tracker {
	unsure := p.unsure * p.Milliseconds
	return tracker{place: tap, pulse: p.Milliseconds, varPlace: scatter * scatter, varPulse: unsure * unsure}
}

// after returns the tracker so many pulses on, before anything is heard there.
func (p *Pulse) after(k tracker, pulses float64) tracker {
	time := max(pulses*p.Milliseconds/wanderTime, 0)
	place, pulse := p.wander*wanderTime, p.drifts*p.Milliseconds
	n := k
	n.place = k.place + pulses*k.pulse
	n.varPlace = k.varPlace + 2*pulses*k.varBoth + pulses*pulses*k.varPulse + place*place*time
	n.varBoth = k.varBoth + pulses*k.varPulse
	n.varPulse = k.varPulse + pulse*pulse*time
	return n
}

// hear lets the tracker, moved by so many pulses, hear a tap. It returns the bits
// that the tap's moment takes to the millisecond, and how late it is. A stray tap
// does not move the tracker.
func (p *Pulse) hear(k tracker, pulses, tap, scatter float64) (next tracker, bits, late float64) {
	n := p.after(k, pulses)
	variance := n.varPlace + scatter*scatter
	late = tap - n.place
	placed, stray := densities(late, variance, p.Milliseconds)
	bits = 200
	if sum := placed + stray; sum > 1e-60 {
		bits = -math.Log(sum) / math.Ln2
	}
	if placed < stray {
		return n, bits, late
	}
	gainPlace, gainPulse := n.varPlace/variance, n.varBoth/variance
	n.place += gainPlace * late
	n.pulse += gainPulse * late
	n.varPlace, n.varBoth, n.varPulse = n.varPlace-gainPlace*n.varPlace, n.varBoth-gainPlace*n.varBoth, n.varPulse-gainPulse*n.varBoth
	n.pulse = min(max(n.pulse, 0.6*p.Milliseconds), 1.6*p.Milliseconds)
	return n, bits, late
}

// densities returns how likely a tap is so late as one in its place, and as a
// stray one: evenly over a pulse to both sides, and ever less beyond.
func densities(late, variance, pulse float64) (placed, stray float64) {
	if x := late * late / (2 * variance); x < 50 { // beyond it is less than any stray tap
		placed = (1 - outliers) * math.Exp(-x) / math.Sqrt(2*math.Pi*variance)
	}
	stray = outliers / (2 * pulse)
	if off := math.Abs(late); off >= pulse {
		stray *= math.Exp2(-3 * off / pulse)
	}
	return placed, stray
}

// scatterOf estimates the scatter of taps that are so late: the root mean square
// of those within three times the median deviation (scaled to a Gaussian's).
func scatterOf(late []float64, pulse float64) float64 {
	off := make([]float64, len(late))
	for i, x := range late {
		off[i] = math.Abs(x)
	}
	slices.Sort(off)
	limit := 3 * max(1.4826*off[len(off)/2], 1)
	sum, n := 0.0, 0.0
	for _, x := range off {
		if x < limit {
			sum += x * x
			n++
		}
	}
	return boundScatter(math.Sqrt(sum/n), pulse)
}

func boundScatter(scatter, pulse float64) float64 { return min(max(scatter, 3), 0.35*pulse) }
