package report

import (
	"io"

	"tieover/score"
	"tieover/score/analysis/fit"
	"tieover/score/beat"
)

// FitJSON writes what Fit says, for programs. Lengths are fractions of a whole
// note as strings; statements, gaps and groups count pulses.
func FitJSON(w io.Writer, p *score.Piece) error {
	f := newFitting(p.Sections[0], beat.American)
	out := newStream(w)
	out.object("", func() {
		out.value("version", Version)
		out.value("groups", f.groups)
		out.value("silentGroups", f.silent())
		out.value("pulse", f.pulse.String())
		out.value("meter", f.s.Meter.String())
		out.value("bars", f.s.BarCount())
		out.value("length", f.s.Grid.Span(f.s.Length).String())
		out.value("wholePulses", f.even)
		out.value("wholeCycles", f.total/f.length)
		out.value("cut", f.cutJSON())
		out.list("clean", func() {
			for _, c := range f.clean() {
				out.value("", map[string]int{"cycles": c.Cycles, "bars": c.Bars})
			}
		})
		out.list("changes", func() { f.changesJSON(out) })
		out.list("loopClosings", func() { f.leadsJSON(out) })
		out.list("closings", func() { f.closingsJSON(out) })
	})
	out.out.WriteByte('\n')
	return out.out.Flush()
}

// silent lists which groups are rests, from 1.
func (f fitting) silent() []int {
	list := []int{}
	for i, blank := range f.blank {
		if blank {
			list = append(list, i+1)
		}
	}
	return list
}

// cutJSON is null when whole cycles fill the bars.
func (f fitting) cutJSON() any {
	c := f.truncated()
	if c.Left == 0 {
		return nil
	}
	span := func(ticks int) string { return f.s.Grid.Span(beat.Time(ticks)).String() }
	out := struct {
		Cycle   int    `json:"cycle"`
		Left    string `json:"sounds"` // of the cut cycle
		Group   int    `json:"group"`
		Kept    string `json:"kept"`
		Of      string `json:"of"`
		Inside  bool   `json:"insideGroup"`
		Tail    []int  `json:"groups,omitempty"`    // of the cut cycle, in pulses
		Stretch []int  `json:"stretched,omitempty"` // the last groups when the one before takes the rest
	}{Cycle: c.Cycles + 1, Left: span(c.Left), Group: c.Group, Kept: span(c.Kept), Of: span(c.Of), Inside: c.Inside()}
	if !f.even {
		return out
	}
	tail := fit.Truncate(f.groups, f.total).Tail(f.groups)
	out.Tail = tail
	if c.Inside() && f.total > f.length {
		stretched, ok := fit.Extended(f.groups, f.length+f.total%f.length)
		if ok {
			out.Stretch = stretched
		}
	}
	return out
}

func (f fitting) changesJSON(out *stream) {
	if !f.even {
		return
	}
	for _, c := range fit.Changes(f.groups, f.total) {
		out.value("", map[string]int{"cycles": c.Cycles, "twos": c.Twos, "threes": c.Threes, "groups": c.Size(), "pulses": c.Pulses()})
	}
}

func (f fitting) leadsJSON(out *stream) {
	if !f.even {
		return
	}
	for _, l := range fit.After(f.length, f.total) {
		out.value("", map[string]int{"cycles": l.Cycles, "statement": l.Closing.Statement, "gap": l.Closing.Gap})
	}
}

func (f fitting) closingsJSON(out *stream) {
	if !f.even {
		return
	}
	pairs := func(all []fit.Closing) [][2]int {
		list := [][2]int{}
		for _, c := range all {
			list = append(list, [2]int{c.Statement, c.Gap})
		}
		return list
	}
	for _, bars := range f.stretches() {
		if n, ok := f.lastBars(bars); ok {
			out.value("", map[string]any{"bars": bars, "pulses": n,
				"landingExtra": pairs(fit.Closings(n, fit.Exclusive)), "landingCounted": pairs(fit.Closings(n, fit.Inclusive))})
		}
	}
}
