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

// inPlace is the logarithm of a Gaussian's height, of those that are not.
var inPlace = math.Log2((1 - outliers) / math.Sqrt(2*math.Pi))

// start returns the tracker at the first tap.
func (p *Pulse) start(tap, scatter float64) tracker {
	unsure := p.unsure * p.Milliseconds
	return tracker{place: tap, pulse: p.Milliseconds, varPlace: scatter * scatter, varPulse: unsure * unsure}
}

// advance returns the tracker so many pulses on, before anything is heard there.
func (p *Pulse) advance(k tracker, pulses float64) tracker {
	time := max(pulses*p.Milliseconds/wanderTime, 0)
	place, pulse := p.wander*wanderTime, p.drifts*p.Milliseconds
	n := k
	n.place = k.place + pulses*k.pulse
	n.varPlace = k.varPlace + 2*pulses*k.varBoth + pulses*pulses*k.varPulse + place*place*time
	n.varBoth = k.varBoth + pulses*k.varPulse
	n.varPulse = k.varPulse + pulse*pulse*time
	return n
}

// hear moves a tracker on by so many pulses to a tap, which corrects it unless it is a
// stray one. It returns the bits of the tap's moment, to the millisecond, and how late the
// tap is.
func (p *Pulse) hear(k tracker, pulses, tap, scatter float64) (next tracker, bits, late float64) {
	n := p.advance(k, pulses)
	variance := n.varPlace + scatter*scatter
	late = tap - n.place
	bits, stray := momentBits(late, variance, p.Milliseconds)
	if stray {
		return n, bits, late
	}
	gainPlace, gainPulse := n.varPlace/variance, n.varBoth/variance
	n.place += gainPlace * late
	n.pulse += gainPulse * late
	n.varPlace, n.varBoth, n.varPulse = n.varPlace-gainPlace*n.varPlace, n.varBoth-gainPlace*n.varBoth, n.varPulse-gainPulse*n.varBoth
	n.pulse = min(max(n.pulse, 0.6*p.Milliseconds), 1.6*p.Milliseconds)
	return n, bits, late
}

// momentBits is what it takes to say, to the millisecond, the moment of a tap that is
// so late: as one in its place, or as a stray one, which is anywhere within a pulse to
// both sides, and ever less likely beyond; at most 200. stray says that it rather is one.
func momentBits(late, variance, pulse float64) (bits float64, stray bool) {
	const most, negligible = 200, 40
	placed := inPlace - log2(variance)/2 - late*late/(2*variance)*math.Log2E
	strayed := log2(outliers / 2 / pulse)
	if off := math.Abs(late); off >= pulse {
		strayed -= 3 * off / pulse
	}
	likelier, apart := max(placed, strayed), math.Abs(placed-strayed)
	if apart < negligible {
		likelier += log2(1 + exp2(-apart))
	}
	return min(-likelier, most), placed < strayed
}

// estimateScatter estimates the scatter of taps that are so late: the root mean square
// of those within three times the median deviation (scaled to a Gaussian's).
func estimateScatter(late []float64, pulse float64) float64 {
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
