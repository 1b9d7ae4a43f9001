package layout

import (
	"fmt"
	"slices"

	"tieover/score"
	"tieover/score/beat"
)

// label is a boxed sign at a moment.
type label struct {
	at      beat.Time // in section time
	text    string
	within  string // "beat 3", for a moment inside the bar
	realign bool
	onBar   bool
}

// labels takes the realignments of the bar off the queue; at the section's end
// also the one exactly there.
func (w *sectionWalk) labels(fb *frameBar, lastBar bool) {
	if fb.first && w.s.Name != "" {
		fb.labels = append(fb.labels, label{at: 0, text: w.s.Name, onBar: true})
	}
	fb.realigned = fb.realigned[:0]
	if w.realigned >= 0 {
		fb.realigned = append(fb.realigned, w.realigned)
	}
	for {
		r, ok := w.peek(0)
		if !ok || r.Time >= fb.to && !(lastBar && r.Time == fb.to) {
			break
		}
		w.queue = append(w.queue[:0], w.queue[1:]...)
		if r.Time < fb.to {
			w.previous = r.Time
		}
		if r.Index == 0 {
			w.realigned = r.Time
			fb.realigned = append(fb.realigned, r.Time)
			fb.starts = r.Time == fb.from
		}
		if r.Label == "" {
			continue
		}
		w.realigned = r.Time
		fb.realigned = append(fb.realigned, r.Time)
		fb.starts = fb.starts || r.Time == fb.from
		l := label{at: r.Time, text: r.Label, realign: true, onBar: r.Time == fb.from}
		if r.Time > fb.from && r.Time < fb.to {
			l.within = within(fb.sig, w.s.Grid.Span(r.Time-fb.from))
		}
		if r.Time == fb.to && w.s.End == score.Repeat {
			l.text += " = beginning"
		}
		fb.labels = append(fb.labels, l)
	}
}

// realignedBy returns the last realignment up to a moment of the bar, -1 when
// there is none.
func (fb *frameBar) realignedBy(at beat.Time) beat.Time {
	for _, r := range slices.Backward(fb.realigned) {
		if r <= at {
			return r
		}
	}
	return -1
}

// within says where inside a bar a moment lies: "beat 3", or "beat 3+" past it.
func within(sig score.Signature, into beat.Span) string {
	n := 1
	for _, length := range sig.Beats() {
		if into.Cmp(length) < 0 {
			break
		}
		into = into.Sub(length)
		n++
	}
	if into.Sign() > 0 {
		return fmt.Sprintf("beat %d+", n)
	}
	return fmt.Sprintf("beat %d", n)
}

// plan takes what the spec's plan and tempo marks put into the bar.
func (w *sectionWalk) plan(fb *frameBar, lastBar bool) {
	for ; w.entry < len(w.s.Plan); w.entry++ {
		e := &w.s.Plan[w.entry]
		if e.Time >= fb.to && !lastBar {
			break
		}
		fb.entries = append(fb.entries, e)
		if e.Mark != "" && !fb.labeled(e.Time, e.Mark) {
			l := label{at: e.Time, text: e.Mark, onBar: e.Time == fb.from}
			fb.labels = append(fb.labels, l)
		}
	}
	for ; w.tempo < len(w.look.tempos) && w.look.tempos[w.tempo].Time < fb.to; w.tempo++ {
		fb.tempos = append(fb.tempos, w.look.tempos[w.tempo])
	}
}

func (fb *frameBar) labeled(at beat.Time, text string) bool {
	return slices.ContainsFunc(fb.labels, func(l label) bool { return l.at == at && l.text == text })
}
