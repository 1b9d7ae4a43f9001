package analysis

import (
	"cmp"
	"fmt"
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
	w := gather(s)
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

func gather(s *score.Section) window {
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
			w.take(c)
		}
	}
	return w
}

func (w *window) take(c *score.Cycle) {
	if c.Start >= 0 {
		w.starts = append(w.starts, c.Start)
	}
	for _, a := range c.Attacks {
		w.attacks = append(w.attacks, w.clip(c.Start+a.At, a.Length))
	}
	for _, g := range c.Groups {
		if g.At < c.Sounds && !g.Blank {
			w.groups = append(w.groups, w.clip(c.Start+g.At, min(g.Length, c.Sounds-g.At)))
		}
	}
}

func (w *window) clip(at, length beat.Time) span {
	return span{max(0, at), min(w.Length, at+length)}
}

// measurer places barlines and beats.
type measurer interface {
	crossed(span) int // barlines strictly inside
	onBeat(beat.Time) bool
	bars(length beat.Time) (bars, changes int)
}

func newMeasurer(s *score.Section, m score.Meter) measurer {
	if m.String() == s.Meter.String() && !plainMeter(s) {
		return asWritten{s, newPlacer(s)}
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
	p *placer
}

func (a asWritten) crossed(x span) int {
	if x.to <= x.from+1 {
		return 0
	}
	return a.s.BarAt(x.to-1).N - a.s.BarAt(x.from).N
}

func (a asWritten) onBeat(t beat.Time) bool { return a.p.at(t).beat }

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

// index returns the bar that t falls in, from 0.
func (r *rotation) index(t beat.Time) int {
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

// candidate is a meter worth counting.
type candidate struct {
	meter score.Meter
	from  []string
}

// candidates lists the section's meter, each layer's cycle, its equal splits
// and its split in two, and the greatest common divisor and least common
// multiple of the cycles. Meters that cannot be written are left out.
func candidates(s *score.Section) []candidate {
	var all candidateList
	all.add(s.Meter, "as the spec has it")
	var cycles []beat.Time
	for i, l := range s.Layers {
		if len(l.Patterns) != 1 || len(l.Process) > 0 {
			continue
		}
		sizes := sizesOf(l.Patterns[0])
		unit, ok := binaryUnit(l.Pulse)
		cycles = append(cycles, beat.Time(total(sizes))*l.Unit)
		if !ok {
			continue
		}
		name := "cycle of " + s.Layers[i].Name
		all.additive(sizes, unit, name)
		for parts := 2; parts <= 4; parts++ {
			n := total(sizes)
			if part := unit.Times(int64(n / parts)); n%parts == 0 && part.Cmp(shortestBar()) >= 0 {
				all.plain(part, fmt.Sprintf("%s in %d equal bars", name, parts))
			}
		}
		all.split(sizes, unit, name+" in two bars")
	}
	all.common(s.Grid, cycles)
	return all.list
}

// shortestBar is the shortest bar worth proposing.
func shortestBar() beat.Span { return beat.Of(1, 4) }

type candidateList struct{ list []candidate }

func (c *candidateList) add(m score.Meter, from string) {
	for i := range c.list {
		if c.list[i].meter.String() == m.String() {
			if !slices.Contains(c.list[i].from, from) {
				c.list[i].from = append(c.list[i].from, from)
			}
			return
		}
	}
	c.list = append(c.list, candidate{m, []string{from}})
}

// additive adds the groups as summands.
func (c *candidateList) additive(sizes []int, unit beat.Span, from string) {
	if sig, ok := additive(sizes, unit); ok {
		c.add(score.Meter{sig}, from)
	}
}

func additive(sizes []int, unit beat.Span) (score.Signature, bool) {
	groups := make([]int, len(sizes))
	for i, n := range sizes {
		groups[i] = n * int(unit.Num())
	}
	if total(groups) > maxCount {
		return score.Signature{}, false
	}
	return score.Signature{Terms: []score.Term{{Groups: groups, Unit: int(unit.Den())}}}, true
}

// maxCount is the largest number of beats in a time signature.
const maxCount = 64

// plain adds a plain signature of that length, counted in quarters or, where
// it is no whole number of them, in the longest value that it is.
func (c *candidateList) plain(length beat.Span, from string) {
	if sig, ok := plainOf(length); ok {
		c.add(score.Meter{sig}, from)
	}
}

func plainOf(length beat.Span) (score.Signature, bool) {
	for unit := int64(4); unit <= 128; unit *= 2 {
		n, whole := length.Times(unit).IsWhole()
		if whole && n <= maxCount {
			return score.PlainSignature(int(n), int(unit)), true
		}
	}
	return score.Signature{}, false
}

// split adds the alternation of two bars that divides the cycle at the group
// start nearest to its middle, the earlier of two.
func (c *candidateList) split(sizes []int, unit beat.Span, from string) {
	n, at, best := total(sizes), 0, 0
	for _, g := range sizes[:len(sizes)-1] {
		at += g
		if best == 0 || max(2*at-n, n-2*at) < max(2*best-n, n-2*best) {
			best = at
		}
	}
	if best == 0 || 2*best == n {
		return // one group, or equal bars, which are listed already
	}
	a, okA := plainOf(unit.Times(int64(best)))
	b, okB := plainOf(unit.Times(int64(n - best)))
	if okA && okB {
		c.add(score.Meter{a, b}, from)
	}
}

// common adds the greatest common divisor and least common multiple of the
// cycles, if a bar can be that long.
func (c *candidateList) common(grid beat.Grid, cycles []beat.Time) {
	if len(cycles) < 2 {
		return
	}
	g, l, fits := int64(0), int64(1), true
	for _, length := range cycles {
		g = beat.GCD(g, int64(length))
		if fits {
			l, fits = beat.LCM(l, int64(length))
		}
	}
	if divisor := grid.Span(beat.Time(g)); divisor.Cmp(shortestBar()) >= 0 {
		c.plain(divisor, "greatest common divisor of the cycles")
	}
	if fits && l < int64(grid)*4 { // a bar of at most four whole notes
		c.plain(grid.Span(beat.Time(l)), "least common multiple of the cycles")
	}
}

// binaryUnit returns the length of a pulse if a time signature can count it.
func binaryUnit(p beat.Pulse) (beat.Span, bool) {
	unit := p.Span()
	den := unit.Den()
	return unit, den&(den-1) == 0 && den <= 128
}

func sizesOf(p score.Pattern) []int {
	sizes := make([]int, len(p.Groups))
	for i, item := range p.Groups {
		sizes[i] = item.Size
	}
	return sizes
}

func total(sizes []int) int {
	n := 0
	for _, s := range sizes {
		n += s
	}
	return n
}
