package report

import (
	"io"
	"slices"

	"tieover/score"
	"tieover/score/analysis/fit"
	"tieover/score/beat"
)

// FitJSON writes what Fit says, for programs. Lengths are fractions of a whole
// note as strings; statements, gaps and groups count pulses.
func FitJSON(w io.Writer, p *score.Piece) error {
	f := newFitting(p.Sections[0], beat.American)
	out := newStream(w)
	out.object("", func() { fill(&facts{stream: out, s: f.s}, fitKeys(), f) })
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

// fitKeys are the keys of a fit. Lists that need a whole number of pulses are
// empty without it.
func fitKeys() []field[fitting] {
	return []field[fitting]{
		{"version", "of the form", func(*facts, fitting) any { return Version }},
		{"groups", "in pulses", func(_ *facts, f fitting) any { return f.groups }},
		{"silentGroups", "which of them are rests, from 1", func(_ *facts, f fitting) any { return f.silent() }},
		{"pulse", "a fraction of a whole note", func(_ *facts, f fitting) any { return f.pulse.String() }},
		{"meter", "or meters by turns", func(_ *facts, f fitting) any { return f.s.Meter.String() }},
		{"bars", "to fill", func(_ *facts, f fitting) any { return f.s.BarCount() }},
		{"length", "of these bars", func(j *facts, f fitting) any { return j.span(f.s.Length) }},
		{"wholePulses", "they are a whole number of pulses", func(_ *facts, f fitting) any { return f.even }},
		{"wholeCycles", "that fit in", func(_ *facts, f fitting) any { return f.total / f.length }},
		{"cut", "null, or how the last cycle is cut, see below", func(j *facts, f fitting) any {
			if f.truncated().Left == 0 {
				return nil
			}
			return line(j, fitCutKeys, f)
		}},
		{"clean", "`bars` that so many `cycles` fill", func(_ *facts, f fitting) any {
			return listed(slices.Values(f.clean()), func(c cleanFit) any { return object{{"bars", c.Bars}, {"cycles", c.Cycles}} })
		}},
		{"changes", "smallest changes of the loop that make it fit, see below", func(j *facts, f fitting) any {
			return evenly(f, func() each { return lines(j, changeKeys, fit.Changes(f.groups, f.total)) })
		}},
		{"loopClosings", "the loop three times with gaps, see below", func(j *facts, f fitting) any {
			return evenly(f, func() each { return lines(j, leadKeys, fit.After(f.length, f.total)) })
		}},
		{"closings", "any statement three times with gaps, see below", func(j *facts, f fitting) any {
			return evenly(f, func() each { return lines(j, closingKeys, f.closingStretches()) })
		}},
	}
}

// evenly is a list that needs a whole number of pulses.
func evenly(f fitting, list func() each) each {
	if !f.even {
		return func(func(any) bool) {}
	}
	return list()
}

var fitCutKeys = []field[fitting]{
	{"cycle", "that is cut", func(_ *facts, f fitting) any { return f.truncated().Cycles + 1 }},
	{"sounds", "of it", func(j *facts, f fitting) any { return j.span(beat.Time(f.truncated().Left)) }},
	{"group", "in which it stops", func(_ *facts, f fitting) any { return f.truncated().Group }},
	{"kept", "of that group", func(j *facts, f fitting) any { return j.span(beat.Time(f.truncated().Kept)) }},
	{"of", "the length of that group", func(j *facts, f fitting) any { return j.span(beat.Time(f.truncated().Of)) }},
	{"insideGroup", "it stops inside", func(_ *facts, f fitting) any { return f.truncated().Inside() }},
	{"groups", "of the cut cycle, in pulses", func(_ *facts, f fitting) any {
		if !f.even {
			return absent{}
		}
		return fit.Truncate(f.groups, f.total).Tail(f.groups)
	}},
	{"stretched", "the last groups when the one before takes the rest", func(_ *facts, f fitting) any {
		if f.even && f.truncated().Inside() && f.total > f.length {
			if stretched, ok := fit.Extended(f.groups, f.length+f.total%f.length); ok {
				return stretched
			}
		}
		return absent{}
	}},
}

var changeKeys = []field[fit.Change]{
	{"cycles", "how many then fill the bars", func(_ *facts, c fit.Change) any { return c.Cycles }},
	{"groups", "that change, added or taken away", func(_ *facts, c fit.Change) any { return c.Size() }},
	{"pulses", "added; negative is taken away", func(_ *facts, c fit.Change) any { return c.Pulses() }},
	{"threes", "groups of 3 added; negative is taken away", func(_ *facts, c fit.Change) any { return c.Threes }},
	{"twos", "groups of 2 added; negative is taken away", func(_ *facts, c fit.Change) any { return c.Twos }},
}

var leadKeys = []field[fit.Lead]{
	{"cycles", "that come before", func(_ *facts, l fit.Lead) any { return l.Cycles }},
	{"gap", "in pulses", func(_ *facts, l fit.Lead) any { return l.Closing.Gap }},
	{"statement", "in pulses", func(_ *facts, l fit.Lead) any { return l.Closing.Statement }},
}

// closingStretch is the last bars, over which any statement is tried.
type closingStretch struct{ bars, pulses int }

func (f fitting) closingStretches() []closingStretch {
	var all []closingStretch
	for _, bars := range f.stretches() {
		if n, ok := f.lastBars(bars); ok {
			all = append(all, closingStretch{bars, n})
		}
	}
	return all
}

var closingKeys = []field[closingStretch]{
	{"bars", "the last so many", func(_ *facts, c closingStretch) any { return c.bars }},
	{"landingCounted", "pairs of statement and gap, the landing stroke counted as the end", func(_ *facts, c closingStretch) any { return statements(fit.Closings(c.pulses, fit.Inclusive)) }},
	{"landingExtra", "likewise, the landing stroke extra", func(_ *facts, c closingStretch) any { return statements(fit.Closings(c.pulses, fit.Exclusive)) }},
	{"pulses", "of these bars", func(_ *facts, c closingStretch) any { return c.pulses }},
}

func statements(all []fit.Closing) [][2]int {
	list := [][2]int{}
	for _, c := range all {
		list = append(list, [2]int{c.Statement, c.Gap})
	}
	return list
}
