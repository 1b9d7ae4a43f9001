package analysis

import (
	"slices"

	"tieover/score"
	"tieover/score/beat"
	"tieover/score/process"
)

// Clean is the first end at or after the section's at which no cycle is cut.
type Clean struct {
	Known bool // there is one within CleanReach bars; if not, the next two say why, or lengths or meters change
	Never bool // by arithmetic, there is none
	Far   bool // there is none within CleanReach bars
	Bars  int  // barlines from the section's end to it; 0 when the section ends clean
	At    beat.Time
	Bar   int // the number of the bar that ends there
}

// CleanReach is how many bars ahead a clean end is looked for.
const CleanReach = 100_000

// cleanOf looks at each barline from the section's end on whether all cycles of
// constant length that run to the end would be complete there.
func cleanOf(s *score.Section, layers []Layer) Clean {
	if !plainMeter(s) {
		return Clean{}
	}
	ends, ok := runningOn(s, layers)
	if !ok {
		return Clean{}
	}
	barred := s.Barred(s.Meter)
	next := barred.BarAt(s.Length)
	for bars := 0; bars < CleanReach; bars++ {
		at := next.Start
		if at >= s.Length && !slices.ContainsFunc(ends, func(c score.Cycle) bool { return (at - c.Start).Mod(c.Length) != 0 }) {
			return Clean{Known: true, Bars: bars, At: at, Bar: next.Number - 1}
		}
		next = barred.Bar(next.N + 1)
	}
	if len(s.Meter) == 1 {
		ends = append(ends, score.Cycle{Length: next.Length})
	}
	never := neverTogether(ends)
	return Clean{Never: never, Far: !never}
}

// neverTogether reports whether two of the loops never end together: their ends differ
// by no multiple of what their lengths share.
func neverTogether(ends []score.Cycle) bool {
	for i, a := range ends {
		for _, b := range ends[:i] {
			if (a.Start-b.Start)%beat.Time(beat.GCD(int64(a.Length), int64(b.Length))) != 0 {
				return true
			}
		}
	}
	return false
}

// runningOn returns, for each layer whose cycles run on to the section's end,
// one moment at which a cycle ends and the length of all. ok is false when a
// length changes.
func runningOn(s *score.Section, layers []Layer) (ends []score.Cycle, ok bool) {
	for i, l := range layers {
		layer := s.Layers[i]
		if layer.Line != nil || layer.Loop != score.Run || layer.LeaveAt != nil {
			continue
		}
		if l.Length == 0 || !l.Even() || l.Cycles == 0 || lengthens(layer) {
			return nil, false
		}
		ends = append(ends, score.Cycle{Start: l.End.At + l.End.Missing, Length: l.Length})
	}
	return ends, true
}

// lengthens reports whether a process changes the length of the cycle.
func lengthens(l *score.Layer) bool {
	return slices.ContainsFunc(l.Process, func(p score.Process) bool {
		return p.Kind == process.Append || p.Kind == process.Grow && p.From == 0
	})
}
