package layout

import (
	"iter"

	"tieover/score/beat"
)

// gather counts runs of empty bars, so that a part can print them as one rest.
// A run ends where anything is to be read: a mark, a change, a special barline,
// the bar before which a system must begin. It holds a count, never the bars.
func gather(bars iter.Seq[*Bar]) iter.Seq[*Bar] {
	return func(yield func(*Bar) bool) {
		var first Bar // of the run
		run := 0
		flush := func() bool {
			b := first
			b.Rest = run
			if run == 1 {
				b.Rest = 0
			}
			for i := range run {
				if !yield(&b) {
					return false
				}
				b = Bar{Number: first.Number + i + 1, Start: first.Start + beat.Time(i+1)*first.Measure.Length,
					Measure: first.Measure, empty: true}
			}
			run = 0
			return true
		}
		stopped := false
		for bar := range bars {
			joins := run > 0 && bar.empty && bar.joins(&first)
			if run > 0 && !joins && !flush() {
				stopped = true
				break
			}
			switch {
			case joins:
				run++
			case bar.empty && bar.Barline == Plain:
				first = *bar
				first.Marks = append([]Mark(nil), bar.Marks...)
				run = 1
			default:
				if !yield(bar) {
					stopped = true
				}
			}
			if stopped {
				break
			}
		}
		if !stopped && run > 0 {
			flush()
		}
	}
}

// joins reports whether an empty bar may go into a run: nothing is to be read
// at it.
func (b *Bar) joins(first *Bar) bool {
	return b.Measure == first.Measure && len(b.Marks) == 0 && !b.NewMeter && !b.NewKey &&
		b.Left == Plain && b.Barline == Plain && b.Break == NoBreak
}
