package rows

import (
	"iter"
	"slices"

	"tieover/score"
	"tieover/score/beat"
)

// walk pulls all layers, the composite and the realignments bar by bar.
type walk struct {
	st    *Chart
	bars  Bar // reused
	layer []layerPull
	hits  hitPull
	marks markPull

	struck []Hit       // of the bar at hand, reused
	pulses []beat.Time // of all rows in it, reused

	stops []func()
}

func newWalk(st *Chart) *walk {
	w := &walk{st: st}
	for _, i := range st.Layers {
		next, stop := iter.Pull(st.moments(i))
		w.stops = append(w.stops, stop)
		p := layerPull{next: next}
		p.advance()
		w.layer = append(w.layer, p)
	}
	w.bars.Rows = make([]Row, len(st.Layers))
	next, stop := iter.Pull(st.Section.Composite(st.Layers))
	w.stops = append(w.stops, stop)
	w.hits = hitPull{next: next, end: st.Section.Length}
	w.hits.advance()
	nextMark, stopMark := iter.Pull(st.Section.Realignments())
	w.stops = append(w.stops, stopMark)
	w.marks = markPull{next: nextMark, plan: st.Section.Plan}
	w.marks.advance()
	return w
}

func (w *walk) stop() {
	for _, stop := range w.stops {
		stop()
	}
}

// bar fills the one bar that is reused.
func (w *walk) bar(b score.Bar) *Bar {
	out := &w.bars
	out.Bar = b
	for i := range w.layer {
		w.layer[i].bar(b, &out.Rows[i])
		out.Rows[i].Layer = w.st.Layers[i]
		out.Rows[i].Held = out.Rows[i].Held && b.End() < w.st.Section.Length
	}
	w.together(out)
	out.Labels = out.Labels[:0]
	out.Plan = out.Plan[:0]
	out.Closes = b.End() >= w.st.Section.Length
	w.marks.bar(out)
	return out
}

// together merges the composite's hits with the pulses of all rows.
func (w *walk) together(b *Bar) {
	w.struck = w.hits.bar(b.Bar, w.struck[:0], w.st.Layers)
	w.pulses = w.pulses[:0]
	for _, row := range b.Rows {
		for _, cell := range row.Cells {
			w.pulses = append(w.pulses, cell.At)
		}
	}
	slices.Sort(w.pulses)
	b.Together = b.Together[:0]
	next := 0 // of the hits
	for _, at := range slices.Compact(w.pulses) {
		for next < len(w.struck) && w.struck[next].At < at {
			b.Together = append(b.Together, w.struck[next])
			next++
		}
		if next == len(w.struck) || w.struck[next].At > at {
			b.Together = append(b.Together, Hit{At: at})
		}
	}
	b.Together = append(b.Together, w.struck[next:]...)
}

// layerPull is one layer, one moment ahead.
type layerPull struct {
	next   func() (moment, bool)
	ahead  moment
	more   bool
	sounds beat.Time
}

func (p *layerPull) advance() { p.ahead, p.more = p.next() }

func (p *layerPull) bar(b score.Bar, row *Row) {
	row.Cells, row.Starts, row.Pulses = row.Cells[:0], row.Starts[:0], 0
	for p.more && p.ahead.cell.At < b.End() {
		m := p.ahead
		m.cell.At -= b.Start
		row.Cells = append(row.Cells, m.cell)
		if m.starts != nil {
			s := *m.starts
			s.At -= b.Start
			row.Starts = append(row.Starts, s)
		}
		if m.cell.Sign.Struck() {
			p.sounds = m.ends
		}
		if row.Pulses == 0 {
			row.Pulses = m.pulses
		}
		p.advance()
	}
	row.Held = p.sounds > b.End()
}

// hitPull is the composite, one hit ahead, so that every gap is known without
// looking further.
type hitPull struct {
	next  func() (score.StrikeAt, bool)
	ahead score.StrikeAt
	more  bool
	end   beat.Time
}

func (p *hitPull) advance() { p.ahead, p.more = p.next() }

func (p *hitPull) bar(b score.Bar, into []Hit, layers []int) []Hit {
	for p.more && p.ahead.Time < b.End() {
		h := Hit{At: p.ahead.Time - b.Start}
		for _, l := range p.ahead.Layers {
			h.Layers = append(h.Layers, slices.Index(layers, l))
		}
		at := p.ahead.Time
		p.advance()
		h.Gap = max(p.end, at) - at
		if p.more {
			h.Gap = p.ahead.Time - at
		}
		into = append(into, h)
	}
	return into
}

// markPull is the realignments and the plan, one ahead.
type markPull struct {
	next  func() (score.Realignment, bool)
	ahead score.Realignment
	more  bool
	plan  []score.PlanEntry
}

func (p *markPull) advance() { p.ahead, p.more = p.next() }

func (p *markPull) bar(b *Bar) {
	for p.more && p.ahead.Time < b.End() {
		if p.ahead.Label != "" {
			b.Labels = append(b.Labels, Label{p.ahead.Time - b.Start, p.ahead.Label})
		}
		p.advance()
	}
	b.Double = b.Closes || p.more && p.ahead.Label != "" && p.ahead.Time == b.End()
	for len(p.plan) > 0 && p.plan[0].Time < b.End() {
		e := &p.plan[0]
		p.plan = p.plan[1:]
		at := e.Time - b.Start
		b.Plan = append(b.Plan, e)
		if e.Mark != "" && !slices.Contains(b.Labels, Label{at, e.Mark}) {
			b.Labels = append(b.Labels, Label{at, e.Mark})
		}
	}
	slices.SortStableFunc(b.Labels, func(x, y Label) int { return int(x.At - y.At) })
}

// BarCount returns how many bars Bars walks.
func (st *Chart) BarCount() int {
	n := st.Section.BarCount()
	if st.Section.Bar(n).Landing {
		n--
	}
	return n
}

// Boundaries walks the numbers, in the section, of the bars that a realignment
// opens.
func (st *Chart) Boundaries() iter.Seq[int] {
	return func(yield func(int) bool) {
		for r := range st.Section.Realignments() {
			if r.Label != "" && r.OnBarline && r.Time < st.Section.Length &&
				!yield(st.Section.BarAt(r.Time).N) {
				return
			}
		}
	}
}

// Equal reports whether all bars of the section are equally long.
func (st *Chart) Equal() bool {
	s := st.Section
	first := s.Bar(1).Length
	for _, sig := range signatures(s) {
		if s.Grid.Must(sig.Span()) != first {
			return false
		}
	}
	return true
}
