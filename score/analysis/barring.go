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

// measurer counts what the barlines of a section cross.
type measurer struct{ *Placer }

func newMeasurer(s *score.Section, m score.Meter) measurer {
	if plainMeter(s) || m.String() != s.Meter.String() {
		s = s.Barred(m)
	}
	return measurer{NewPlacer(s)}
}

// plainMeter reports whether no plan entry changes the meter.
func plainMeter(s *score.Section) bool {
	return !slices.ContainsFunc(s.Plan, func(e score.PlanEntry) bool { return e.Meter != nil })
}

// crossed counts the barlines strictly inside a stretch.
func (m measurer) crossed(x span) int {
	opening := m.s.Opening()
	if x.to <= x.from+1 || x.to <= opening {
		return 0
	}
	before := 0 // the number of a pickup
	if x.from >= opening {
		bar := m.barAt(x.from)
		if x.to <= bar.End() {
			return 0
		}
		before = bar.N
	}
	return m.barAt(x.to-1).N - before
}

func (m measurer) onBeat(t beat.Time) bool {
	if t < m.s.Opening() { // in a pickup, as in a bar before the first
		t = t.Mod(m.s.Bar(1).Length)
	}
	return m.At(t).OnBeat()
}

// bars counts bars, and those with another signature than the bar before.
func (m measurer) bars(length beat.Time) (bars, changes int) {
	if length == 0 {
		return 0, 0
	}
	first, last := m.s.FirstN(), m.s.BarAt(length-1).N
	bars = last - first + 1
	if len(m.s.Meter) == 1 && plainMeter(m.s) {
		return bars, 0
	}
	before := m.s.Bar(first).Signature
	for n := first + 1; n <= last; n++ {
		now := m.s.Bar(n).Signature
		if !sameTerms(now, before) {
			changes++
		}
		before = now
	}
	return bars, changes
}
