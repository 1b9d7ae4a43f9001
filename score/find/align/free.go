package align

import (
	"cmp"
	"math"
	"slices"
)

// free is taps read on a pulse without any loop.
type free struct {
	pulse    *Pulse
	places   []int64 // of each tap, in pulses from the first
	second   bool    // the first tap is on the second pulse of a pair
	late     []float64
	trackers []tracker // at each tap, after it was heard
	scatter  float64
	bits     float64 // of the reading, timing included
}

// survivor is one way to have counted the taps so far.
type survivor struct {
	tracker
	at     int64 // pulses; odd where it is the second of a pair
	cost   float64
	before int // index in the row before
	late   float64
}

// farthest is the most pulses from tap to tap.
const farthest = 4096

// readFree counts the taps on the pulse with so many survivors, and estimates how they
// scatter. meeting allows two taps on one pulse. It returns nil when no count is
// possible.
func (p *Pulse) readFree(taps []float64, scatter float64, kept int, meeting bool) *free {
	f := p.count(taps, boundScatter(scatter, p.Milliseconds), kept, meeting)
	if f != nil {
		f.scatter = estimateScatter(f.late[1:], p.Milliseconds)
		f.weigh(taps)
	}
	return f
}

// recount counts the taps once more, with the scatter that was estimated.
func (f *free) recount(taps []float64, kept int, meeting bool) *free {
	return f.pulse.readFree(taps, f.scatter, kept, meeting)
}

// count finds the cheapest count of the taps that a few survivors, each with its own
// tracker, lead to.
func (p *Pulse) count(taps []float64, scatter float64, kept int, meeting bool) *free {
	first := survivor{tracker: p.start(taps[0], scatter)}
	rows := [][]survivor{{first}}
	if p.isSwung() {
		first.at = 1
		rows[0] = append(rows[0], first)
	}
	least := int64(1)
	if meeting {
		least = 0
	}
	for _, tap := range taps[1:] {
		row := p.survivors(rows[len(rows)-1], tap, scatter, least)
		if len(row) == 0 {
			return nil
		}
		row = row[:min(kept, len(row))]
		for row[len(row)-1].cost > row[0].cost+20 {
			row = row[:len(row)-1]
		}
		rows = append(rows, row)
	}
	return p.trace(rows, scatter)
}

// survivors returns the survivors at a tap, the cheapest first, one for each place.
func (p *Pulse) survivors(row []survivor, tap, scatter float64, least int64) []survivor {
	var next []survivor
	for j, h := range row {
		near := int64(math.Floor((tap - h.place) / h.pulse))
		for d := max(near-1, least); d <= min(near+2, farthest); d++ {
			n := survivor{at: h.at + d, before: j}
			var bits float64
			n.tracker, bits, n.late = p.hear(h.tracker, p.span(h.at%2 != 0, int(d)), tap, scatter)
			n.cost = h.cost + bits + distanceBits(d)
			if i := slices.IndexFunc(next, func(s survivor) bool { return s.at == n.at }); i < 0 {
				next = append(next, n)
			} else if n.cost < next[i].cost {
				next[i] = n
			}
		}
	}
	slices.SortFunc(next, func(a, b survivor) int { return cmp.Or(cmp.Compare(a.cost, b.cost), cmp.Compare(a.at, b.at)) })
	return next
}

// distanceBits is what a distance costs while no loop is known; usual ones cost the
// same.
func distanceBits(d int64) float64 {
	if d <= 8 {
		return 3
	}
	return Gamma(d)
}

func (p *Pulse) trace(rows [][]survivor, scatter float64) *free {
	n := len(rows)
	f := &free{pulse: p, scatter: scatter, places: make([]int64, n), late: make([]float64, n), trackers: make([]tracker, n)}
	for i, j := n-1, 0; i >= 0; i-- {
		h := rows[i][j]
		f.places[i], f.late[i], f.trackers[i] = h.at, h.late, h.tracker
		j = h.before
	}
	if f.second = f.places[0] == 1; f.second {
		for i := range f.places {
			f.places[i]--
		}
	}
	return f
}

// placeGaps returns the distances between places.
func placeGaps(places []int64) []int {
	gaps := make([]int, len(places)-1)
	for i := range gaps {
		gaps[i] = int(places[i+1] - places[i])
	}
	return gaps
}

// weigh counts the bits.
func (f *free) weigh(taps []float64) {
	gaps := placeGaps(f.places)
	f.bits = kindBits + GroupsBits(gaps) + f.pulse.bits
	k, second := f.pulse.start(taps[0], f.scatter), f.second
	for i, d := range gaps {
		var bits float64
		k, bits, _ = f.pulse.hear(k, f.pulse.span(second, d), taps[i+1], f.scatter)
		second = second != (d%2 != 0)
		f.bits += bits
	}
}
