package facts

import (
	"io"

	"tieover/score"
	"tieover/score/analysis/fit"
	"tieover/score/beat"
)

// WriteFit writes what report.Fit says. Lengths are fractions of a whole note as
// strings; statements, gaps and groups count pulses.
func WriteFit(w io.Writer, p *score.Piece) error {
	return write(w, p.Grid, fitting(fit.LoopOf(p.Sections[0])))
}

// fitting says how a loop fits. Lists that need a whole number of pulses are empty
// without it.
func fitting(l fit.Loop) block {
	silent := []int{}
	for i, blank := range l.Blank {
		if blank {
			silent = append(silent, i+1)
		}
	}
	var changes []fit.Change
	var leads []fit.Lead
	var stretches []fit.Stretch
	if l.Even {
		changes, leads, stretches = fit.Changes(l.Groups, l.Total), fit.After(l.Length, l.Total), l.Stretches()
	}
	return block{
		{"version", "of the form", Version},
		{"groups", "in pulses", l.Groups},
		{"silentGroups", "which of them are rests, from 1", silent},
		{"pulse", "a fraction of a whole note", l.Pulse},
		{"meter", "or meters by turns", l.Section.Meter},
		{"bars", "to fill", l.Section.BarCount()},
		{"length", "of these bars", l.Section.Length},
		{"wholePulses", "they are a whole number of pulses", l.Even},
		{"wholeCycles", "that fit in", l.Total / l.Length},
		{"cut", "null, or how the last cycle is cut, see below", nullIf(l.Cut().Left == 0, cut(l))},
		{"clean", "`bars` that so many `cycles` fill", lines(l.Clean(), clean)},
		{"changes", "smallest changes of the loop that make it fit, see below", lines(changes, change)},
		{"loopClosings", "the loop three times with gaps, see below", lines(leads, lead)},
		{"closings", "any statement three times with gaps, see below", lines(stretches, stretch)},
	}
}

func cut(l fit.Loop) object {
	c := l.Cut()
	var groups, stretched any = absent{}, absent{}
	if l.Even {
		groups = fit.Truncate(l.Groups, l.Total).Tail(l.Groups)
		if all, ok := fit.Extended(l.Groups, l.Length+l.Total%l.Length); ok && l.Total > l.Length {
			stretched = all
		}
	}
	return object{
		{"cycle", "that is cut", c.Cycles + 1},
		{"sounds", "of it", beat.Time(c.Left)},
		{"group", "in which it stops", c.Group},
		{"kept", "of that group", beat.Time(c.Kept)},
		{"of", "the length of that group", beat.Time(c.Of)},
		{"insideGroup", "it stops inside", c.Inside()},
		{"groups", "of the cut cycle, in pulses", groups},
		{"stretched", "the last groups when the one before takes the rest", stretched},
	}
}

func clean(c fit.Clean) object { return object{{"bars", "", c.Bars}, {"cycles", "", c.Cycles}} }

func change(c fit.Change) object {
	return object{
		{"cycles", "how many then fill the bars", c.Cycles},
		{"groups", "that change, added or taken away", c.Size()},
		{"pulses", "added; negative is taken away", c.Pulses()},
		{"threes", "groups of 3 added; negative is taken away", c.Threes},
		{"twos", "groups of 2 added; negative is taken away", c.Twos},
	}
}

func lead(l fit.Lead) object {
	return object{
		{"cycles", "that come before", l.Cycles},
		{"gap", "in pulses", l.Closing.Gap},
		{"statement", "in pulses", l.Closing.Statement},
	}
}

func stretch(s fit.Stretch) object {
	return object{
		{"bars", "the last so many", s.Bars},
		{"landingCounted", "pairs of statement and gap, the landing stroke counted as the end", statements(s, fit.Inclusive)},
		{"landingExtra", "likewise, the landing stroke extra", statements(s, fit.Exclusive)},
		{"pulses", "of these bars", s.Pulses},
	}
}

func statements(s fit.Stretch, counting fit.Counting) [][2]int {
	pairs := [][2]int{}
	for _, c := range fit.Closings(s.Pulses, counting) {
		pairs = append(pairs, [2]int{c.Statement, c.Gap})
	}
	return pairs
}
