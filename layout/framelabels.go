package layout

import (
	"fmt"
	"slices"

	"tieover/score"
	"tieover/score/beat"
)

// label is a signpost of a bar, printed in a box.
type label struct {
	score.Signpost
	within string // "beat 3", for a realignment inside the bar
}

// labels takes the signposts of the bar, at the section's end also those
// exactly there.
func (w *sectionWalk) labels(fb *frameBar, lastBar bool) {
	for sign := range w.signs.While(func(s score.Signpost) bool { return s.At < fb.to || lastBar }) {
		l := label{Signpost: sign}
		if sign.Kind == score.Realigns && sign.At > fb.from && sign.At < fb.to {
			l.within = within(fb.sig, w.s.Grid.Span(sign.At-fb.from))
		}
		if sign.Kind == score.Realigns && sign.Closes && w.s.End == score.Repeat {
			l.Text += " = beginning"
		}
		fb.labels = append(fb.labels, l)
	}
}

// realignments takes the realignments of the bar off the queue, named or not;
// at the section's end also the one exactly there.
func (w *sectionWalk) realignments(fb *frameBar, lastBar bool) {
	if w.realigned >= 0 {
		fb.realigned = append(fb.realigned, w.realigned)
	}
	for {
		r, ok := w.peek(0)
		if !ok || r.Time >= fb.to && !(lastBar && r.Time == fb.to) {
			break
		}
		w.queue = slices.Delete(w.queue, 0, 1)
		for i := range fb.s.Layers {
			if n, ok := fb.s.ChangesSeries(i, r); ok && r.Time < fb.to {
				fb.changed = append(fb.changed, score.SeriesChange{Time: r.Time, Layer: i, Number: n})
			}
		}
		if r.Index > 0 && r.Label == "" {
			continue
		}
		w.realigned = r.Time
		fb.realigned = append(fb.realigned, r.Time)
		if r.Time == fb.from {
			fb.starts, fb.forced, fb.divides = true, r.Label != "" && r.Forced(), r.Label != "" && r.Divides
		}
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

// within is where inside a bar a moment is: "beat 3", or "beat 3+" past it.
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
	}
	w.steps(fb)
	for ; w.tempo < len(w.look.tempos) && w.look.tempos[w.tempo].Time < fb.to; w.tempo++ {
		fb.tempos = append(fb.tempos, w.look.tempos[w.tempo])
		if t := w.look.tempos[w.tempo]; t.Tempo.IsGradual() {
			w.gradual = t
			w.steps(fb)
		}
	}
}

// steps takes the steps of the current gradual tempo that fall into the bar, and its end.
func (w *sectionWalk) steps(fb *frameBar) {
	g := &w.gradual
	for ; len(g.Steps) > 0 && g.Steps[0].Time < fb.to; g.Steps = g.Steps[1:] {
		fb.steps = append(fb.steps, g.Steps[0])
	}
	if g.Tempo.IsGradual() && g.Until <= fb.to {
		fb.ended = append(fb.ended, g.Until)
		g.Tempo = score.Tempo{}
	}
}
