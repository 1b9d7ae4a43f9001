package report

import (
	"fmt"
	"strings"

	"tieover/score/analysis"
	"tieover/score/beat"
)

// run is a row of cycles that drift alike: the head of each is moved by the
// same step against the one before.
type run struct {
	first, last int // cycles
	step        beat.Time
	bar         string // where the first of them begins
}

// mostRuns is the greatest number of runs that one sentence has.
const mostRuns = 6

// runs gathers the drift of a layer against the bar. ok is false when there are
// too many runs for a sentence.
func (t *text) runs(layer int) (all []run, ok bool) {
	for step := range analysis.Walk(t.s, layer, analysis.Barline) {
		n := len(all)
		switch {
		case step.First:
			all = append(all, run{first: step.Cycle, last: step.Cycle, bar: t.at(step.Head)})
		case n == 1 && all[0].first == all[0].last, all[n-1].step == step.Step:
			all[n-1].step, all[n-1].last = step.Step, step.Cycle
		case n == mostRuns:
			return nil, false
		default:
			all = append(all, run{step.Cycle, step.Cycle, step.Step, t.at(step.Head)})
		}
	}
	return all, true
}

// inRuns says the drift of a layer run by run.
func (t *text) inRuns(layer int, all []run) string {
	pulse := t.s.Layers[layer].Pulse
	var parts []string
	for i, r := range all {
		who, begin := fmt.Sprintf("cycles %d to %d", r.first, r.last), "begin"
		if r.first == r.last {
			who, begin = fmt.Sprintf("cycle %d", r.first), "begins"
		}
		how := begin + " at the same place of the bar"
		switch {
		case r.step != 0 && r.first == r.last:
			how = begin + " " + t.lateness(r.step, pulse)
		case r.step != 0:
			how = "each " + t.lateness(r.step, pulse)
		}
		if i > 0 {
			who += " (from " + r.bar + ")"
		}
		parts = append(parts, who+" "+how)
	}
	return strings.Join(parts, "; ") + "."
}
