package layout

import (
	"iter"
	"strconv"

	"tieover/layout/sheet"
	"tieover/score/beat"
)

// gather counts runs of empty bars, so that a part can print them as one rest,
// and ends long ones with a cue. A run ends where anything is printed: a mark,
// a change, a barline that is not plain. It holds a count, never the bars.
func gather(bars iter.Seq[*sheet.Bar], q *cuer) iter.Seq[*sheet.Bar] {
	return func(yield func(*sheet.Bar) bool) {
		g := gatherer{q: q, yield: yield}
		for bar := range bars {
			if !g.take(bar) {
				return
			}
		}
		g.flush(nil)
	}
}

type gatherer struct {
	q     *cuer
	yield func(*sheet.Bar) bool
	first sheet.Bar     // of the current run
	run   int           // its bars
	line  sheet.Barline // at its right; but for a plain one nothing more joins it
	times int
	rests int // empty bars in succession, over runs
}

// take passes on a bar or counts it. false stops the walk.
func (g *gatherer) take(bar *sheet.Bar) bool {
	if !bar.Empty {
		ok := g.flush(bar)
		g.rests = 0
		return ok && g.yield(bar)
	}
	g.rests++
	if g.run > 0 && g.run < 1<<30 && g.line == sheet.Plain && joins(bar, &g.first) {
		g.run++
	} else {
		if !g.flush(nil) {
			return false
		}
		g.first, g.run = *bar, 1
		g.first.Marks = append([]sheet.Mark(nil), bar.Marks...)
	}
	g.line, g.times = bar.Barline, bar.Times
	return true
}

// flush passes the run on. If the next bar is an entry after a long rest, the
// last bar of the run is left out of the gathered rest and has the cue.
func (g *gatherer) flush(entry *sheet.Bar) bool {
	n := g.run
	g.run = 0
	if n == 0 {
		return true
	}
	cues := g.q.w.o.Cues
	if entry != nil && cues == CueNotes && entry.Measure.Instrument != g.first.Measure.Instrument {
		cues = CueWords // notes would be written for the instrument that is laid down
	}
	mark, layer, cued := sheet.Mark{}, 0, false
	if entry != nil && g.rests >= longRest && cues != CueNone && entry.Section == g.first.Section {
		mark, layer, cued = g.q.words(entry)
	}
	alone := 0 // bars at the end that are left out of the gathered rest
	if cued {
		alone = 1
		if cues == CueNotes {
			alone = min(2, n)
		}
	}
	for i := range n {
		b := sheet.Bar{Number: g.first.Number + i, Start: g.first.Start + beat.Time(i)*g.first.Measure.Length,
			Measure: g.first.Measure, Empty: true, Section: g.first.Section}
		if g.first.Printed != "" {
			b.Printed = "(" + strconv.Itoa(b.Number) + ")"
		}
		if i == 0 {
			b = g.first
			if n-alone > 1 {
				b.Rest = n - alone
			}
		}
		if i == n-1 {
			b.Barline, b.Times = g.line, g.times
		}
		if i >= n-alone && cues == CueNotes && !b.Measure.Held() {
			b.Measure = g.q.notes(&b, layer)
			if whose, ok := g.q.whose(&b, layer); ok && cued {
				b.Marks = append(b.Marks, whose)
				cued = false // it is where the notes begin
			}
		}
		if cued && i == n-1 {
			b.Marks = append(b.Marks, mark)
		}
		if !g.yield(&b) {
			return false
		}
	}
	return true
}

// joins reports whether an empty bar may go into the run: nothing is to be
// read at it. A new system that only divides a long period is given up for it.
func joins(b, first *sheet.Bar) bool {
	return sheet.SameMeasure(b.Measure, first.Measure) && !b.Measure.Held() && !b.Realigned && len(b.Marks) == 0 && !b.NewMeter && !b.NewKey && !b.NewClef && !b.NewInstrument &&
		b.Left == sheet.Plain && b.Section == first.Section
}
