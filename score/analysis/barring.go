package analysis

import (
	"cmp"
	"slices"

	"tieover/score"
	"tieover/score/beat"
)

// Barring is one way to bar the section and what it costs.
type Barring struct {
	Meter score.Meter
	From  []string // what suggests it, in words

	Ties    int // barlines that a sounding attack crosses
	Broken  int // groups that a barline cuts
	Changes int // bars with another signature than the bar before
	Bars    int
	OffBeat int // cycles that begin off the beat
}

// Window is the stretch over which barrings are counted: the section, or as
// much of its beginning as holds so many attacks.
type Window struct {
	Length beat.Time
	Whole  bool // the whole section
}

// windowAttacks bounds what the candidates are counted over.
const windowAttacks = 20_000

// span is something that a barline may cut.
type span struct{ from, to beat.Time }

// barringsOf counts all candidates, best first: fewest ties over barlines,
// then fewest groups broken, fewest meter changes, fewest bars.
func barringsOf(s *score.Section) ([]Barring, Window) {
	w := readWindow(s)
	var all []Barring
	for _, c := range candidates(s) {
		m := newMeasurer(s, c.meter)
		b := Barring{Meter: c.meter, From: c.from}
		for _, a := range w.attacks {
			b.Ties += m.crossed(a)
		}
		for _, g := range w.groups {
			if m.crossed(g) > 0 {
				b.Broken++
			}
		}
		for _, at := range w.starts {
			if !m.onBeat(at) {
				b.OffBeat++
			}
		}
		b.Bars, b.Changes = m.bars(w.Length)
		all = append(all, b)
	}
	slices.SortStableFunc(all, func(a, b Barring) int {
		return cmp.Or(a.Ties-b.Ties, a.Broken-b.Broken, a.Changes-b.Changes, a.Bars-b.Bars)
	})
	return all, w.Window
}

// window is what is played in it.
type window struct {
	Window
	attacks, groups []span
	starts          []beat.Time // of cycles
}

func readWindow(s *score.Section) window {
	w := window{Window: Window{Length: s.Length, Whole: true}}
	per := max(1, windowAttacks/max(1, len(s.Layers)))
	for i := range s.Layers { // first how far the budget reaches, up to a barline
		n := 0
		for at := range s.Attacks(i) {
			if n++; n > per && at < w.Length {
				w.Length, w.Whole = s.BarAt(at).Start, false
				break
			}
			if at >= w.Length {
				break
			}
		}
	}
	for i := range s.Layers {
		for c := range s.Cycles(i) {
			if c.Start >= w.Length || c.Landing {
				break
			}
			w.take(c, s.Layers[i].Opening())
		}
	}
	return w
}

// take takes what a cycle has from a moment on.
func (w *window) take(c *score.Cycle, from beat.Time) {
	if c.Start >= from {
		w.starts = append(w.starts, c.Start)
	}
	for _, a := range c.Attacks {
		w.attacks = append(w.attacks, w.clip(c.Start+a.At, a.Length, from))
	}
	for _, g := range c.Groups {
		if g.At < c.Sounds && !g.Blank {
			w.groups = append(w.groups, w.clip(c.Start+g.At, min(g.Length, c.Sounds-g.At), from))
		}
	}
}

func (w *window) clip(at, length, from beat.Time) span {
	return span{max(from, at), min(w.Length, at+length)}
}

// measurer places barlines and beats.
type measurer interface {
	crossed(span) int // barlines strictly inside
	onBeat(beat.Time) bool
	bars(length beat.Time) (bars, changes int)
}

func newMeasurer(s *score.Section, m score.Meter) measurer {
	if m.String() == s.Meter.String() && !plainMeter(s) {
		return asWritten{s, NewPlacer(s)}
	}
	r := rotation{grid: s.Grid, meter: m}
	for _, sig := range m {
		for _, at := range beatStarts(nil, s.Grid, sig) {
			r.beats = append(r.beats, r.length()+at)
		}
		r.ends = append(r.ends, r.length()+s.Grid.Must(sig.Span()))
	}
	return &r
}

// plainMeter reports whether no plan entry changes the meter.
func plainMeter(s *score.Section) bool {
	return !slices.ContainsFunc(s.Plan, func(e score.PlanEntry) bool { return e.Meter != nil })
}

// asWritten measures the section's own bars, whose meter the plan changes.
type asWritten struct {
	s *score.Section
	p *Placer
}

func (a asWritten) crossed(x span) int {
	if x.to <= x.from+1 {
		return 0
	}
	return a.s.BarAt(x.to-1).N - a.s.BarAt(x.from).N
}

func (a asWritten) onBeat(t beat.Time) bool { return a.p.At(t).OnBeat() }

func (a asWritten) bars(length beat.Time) (bars, changes int) {
	before := ""
	for b := range a.s.Bars() {
		if b.Start >= length {
			break
		}
		if name := b.Signature.String(); name != before && bars > 0 {
			changes++
		}
		before = b.Signature.String()
		bars++
	}
	return bars, changes
}

// rotation measures a meter that never changes its rotation.
type rotation struct {
	grid  beat.Grid
	meter score.Meter
	ends  []beat.Time // of the bars of one rotation
	beats []beat.Time // of one rotation
}

func (r *rotation) length() beat.Time {
	if len(r.ends) == 0 {
		return 0
	}
	return r.ends[len(r.ends)-1]
}

// index returns the bar that t falls in, from 0; -1 for the pickup.
func (r *rotation) index(t beat.Time) int {
	if t < 0 {
		return -1
	}
	k, found := slices.BinarySearch(r.ends, t%r.length())
	if found {
		k++
	}
	return int(t/r.length())*len(r.ends) + k
}

// start returns where bar k starts, from 0.
func (r *rotation) start(k int) beat.Time {
	n := len(r.ends)
	at := beat.Time(k/n) * r.length()
	if k%n > 0 {
		at += r.ends[k%n-1]
	}
	return at
}

func (r *rotation) crossed(x span) int {
	if x.to <= x.from+1 {
		return 0
	}
	return r.index(x.to-1) - r.index(x.from)
}

func (r *rotation) onBeat(t beat.Time) bool {
	if t < 0 {
		t = t.Mod(r.ends[0])
	}
	_, on := slices.BinarySearch(r.beats, t%r.length())
	return on
}

func (r *rotation) bars(length beat.Time) (bars, changes int) {
	if length == 0 {
		return 0, 0
	}
	bars = r.index(length-1) + 1
	inTurn := 0 // changes in one rotation, from its last bar to its first included
	n := len(r.meter)
	differs := make([]int, n) // 1 when bar k differs from the bar before it
	for k := range n {
		if !r.meter[k].Equal(r.meter[(k+n-1)%n]) {
			differs[k] = 1
			inTurn++
		}
	}
	changes = (bars / n) * inTurn
	for k := range bars % n {
		changes += differs[k]
	}
	return bars, changes - differs[0]
}
