package rows

import (
	"fmt"
	"iter"
	"slices"

	"tieover/score"
	"tieover/score/beat"
	"tieover/score/peek"
)

// walk reads all layers, the composite and what has a name bar by bar.
type walk struct {
	chart *Chart
	bars  Bar // reused
	layer []layerReader
	hits  *peek.Peeker[score.Moment]
	signs *peek.Peeker[score.Signpost]
	plan  []score.PlanEntry // what is left of it
	other *peek.Peeker[score.SeriesChange]

	struck []Hit       // of the bar at hand, reused
	who    []int       // strikes them, reused
	pulses []beat.Time // of all rows in it, reused
}

func newWalk(ch *Chart) *walk {
	w := &walk{chart: ch, plan: ch.Section.Plan, other: peek.Of(ch.Section.SeriesChanges()), signs: peek.Of(ch.Section.Signposts()),
		hits: peek.From(ch.Section.ReadMoments(ch.Layers).Next)}
	for _, i := range ch.Layers {
		r := layerReader{moments: ch.walkLayer(i), sounds: ch.Section.Opening()}
		r.more = r.moments.next(&r.ahead)
		w.layer = append(w.layer, r)
	}
	w.bars.Rows = make([]Row, len(ch.Layers))
	return w
}

func (w *walk) stop() {
	w.signs.Stop()
	w.other.Stop()
}

// bar fills the one bar that is reused.
func (w *walk) bar(b score.Bar) *Bar {
	out := &w.bars
	out.Bar = b
	for i := range w.layer {
		w.layer[i].bar(b, &out.Rows[i])
		out.Rows[i].Layer = w.chart.Layers[i]
		out.Rows[i].Held = out.Rows[i].Held && b.End() < w.chart.Section.Length
	}
	w.together(out)
	out.Closes = b.End() >= w.chart.Section.Length
	w.names(out)
	return out
}

// together merges the composite's hits with the pulses of all rows.
func (w *walk) together(b *Bar) {
	w.strikes(b.Bar)
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

// strikes takes the composite's hits in the bar. Each gap is known, for the next
// moment is.
func (w *walk) strikes(b score.Bar) {
	w.struck, w.who = w.struck[:0], w.who[:0]
	for now := w.hits.Ahead(); now != nil && now.Time < b.End(); now = w.hits.Ahead() {
		at := now.Time
		h := Hit{At: at - b.Start}
		begin := len(w.who)
		for _, l := range now.Layers { // before they are overwritten
			w.who = append(w.who, slices.Index(w.chart.Layers, l))
		}
		h.Layers = w.who[begin:len(w.who):len(w.who)]
		w.hits.Drop()
		h.Gap = max(w.chart.Section.Length, at) - at
		if next := w.hits.Ahead(); next != nil {
			h.Gap = next.Time - at
		}
		w.struck = append(w.struck, h)
	}
}

// names takes what has a name in the bar, and what the plan has for it.
func (w *walk) names(b *Bar) {
	b.Labels, b.Plan = b.Labels[:0], b.Plan[:0]
	for sign := range w.signs.While(func(s score.Signpost) bool { return s.At < b.End() }) {
		if sign.Kind != score.Opens {
			b.Labels = append(b.Labels, Label{sign.At - b.Start, sign.Text})
		}
	}
	next, more := w.signs.Peek()
	b.Double = b.Closes || more && next.Kind == score.Realigns && next.At == b.End()
	for ; len(w.plan) > 0 && w.plan[0].Time < b.End(); w.plan = w.plan[1:] {
		b.Plan = append(b.Plan, &w.plan[0])
	}
	for c := range w.other.While(func(c score.SeriesChange) bool { return c.Time < b.End() }) {
		b.Plan = append(b.Plan, &score.PlanEntry{Time: c.Time, Text: fmt.Sprintf("%s: pitches %d", w.chart.Section.Layers[c.Layer].Name, c.Number)})
		slices.SortStableFunc(b.Plan, func(x, y *score.PlanEntry) int { return int(x.Time - y.Time) })
	}
}

// layerReader is one layer, one moment ahead.
type layerReader struct {
	moments *layerWalk
	ahead   moment
	more    bool // there is one
	sounds  beat.Time
	slurred bool
}

func (r *layerReader) bar(b score.Bar, row *Row) {
	row.Cells, row.Starts, row.Pulses, row.Slurred = row.Cells[:0], row.Starts[:0], 0, r.slurred
	end := b.End()
	for m := &r.ahead; r.more && m.cell.At < end; r.more = r.moments.next(m) {
		row.Cells = append(row.Cells, m.cell)
		row.Cells[len(row.Cells)-1].At -= b.Start
		if m.starts != nil {
			s := *m.starts
			s.At -= b.Start
			row.Starts = append(row.Starts, s)
		}
		if m.cell.Sign.Struck() {
			r.sounds = m.ends
			r.slurred = (r.slurred || m.cell.Slur.Starts) && !m.cell.Slur.Stops
		}
		if row.Pulses == 0 {
			row.Pulses = m.pulses
		}
	}
	row.Held = r.sounds > end
}

// BarCount returns how many bars Bars walks besides a pickup: the number of the last.
func (ch *Chart) BarCount() int {
	n := ch.Section.BarCount()
	if ch.Section.Bar(n).Landing {
		n--
	}
	return n
}

// Boundaries walks the numbers, in the section, of the bars that a realignment
// opens.
func (ch *Chart) Boundaries() iter.Seq[int] {
	return func(yield func(int) bool) {
		for sign := range ch.Section.Signposts() {
			if sign.Kind == score.Realigns && sign.OnBarline && !sign.Closes &&
				!yield(ch.Section.BarAt(sign.At).N) {
				return
			}
		}
	}
}

// Equal reports whether all bars of the section are equally long, but for a
// first one that begins inside.
func (ch *Chart) Equal() bool {
	first := ch.Section.Bar(1)
	return !slices.ContainsFunc(ch.BarLengths(), func(length beat.Time) bool { return length != first.Length+first.Skipped })
}
