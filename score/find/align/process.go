package align

import (
	"math"
	"slices"

	"tieover/score/process"
)

// Process is a rule and all that it plays, one group after the other, to be aligned as a
// loop that does not go round.
type Process struct {
	Cycle []int // groups of the first cycle
	Rule  process.Rule

	groups []int
	heads  []int // in groups, where each cycle begins
	bits   float64
}

// Bounds of the processes that are played.
const (
	longestProcess = longTake // attacks
	spareGroups    = 16       // that a process plays in excess of the attacks, some of which may be missing
)

// newProcess plays a process for so many attacks. ok is false where it has no cycle, or
// too few for two of its changes to be heard.
func newProcess(cycle []int, rule process.Rule, attacks int) (w *Process, ok bool) {
	w = &Process{Cycle: cycle, Rule: rule}
	groups := make([]process.Group, len(cycle))
	for i, size := range cycle {
		if size < 1 {
			return nil, false
		}
		groups[i] = process.Group{Size: size, Spec: i + 1}
	}
	most := attacks + attacks/8 + spareGroups
	w.groups = make([]int, 0, most+len(cycle))
	st := process.New([][]process.Group{groups}, []process.Rule{rule})
	for len(w.groups) < most {
		shape := st.Shape(0)
		if shape.Pulses == 0 || shape.Pulses > farthest {
			break
		}
		w.heads = append(w.heads, len(w.groups))
		for _, g := range shape.Played() {
			w.groups = append(w.groups, g.Size)
		}
		st.Step()
		if _, spent := st.Spent(); spent {
			break // used up: the process does no more
		}
	}
	w.bits = GroupsBits(cycle) + ProcessBits(&rule)
	return w, len(w.heads) > fewestChanges(rule) && w.heads[fewestChanges(rule)] <= attacks
}

// fewestChanges is how many cycles must have gone before two changes of a process
// have been heard.
func fewestChanges(r process.Rule) int { return 2 * r.After }

// cycleOf returns the cycle of a group, which group of it that is, and how many it
// has; past the last one all that the last has.
func (w *Process) cycleOf(at int) (cycle, group, groups int) {
	i, begins := slices.BinarySearch(w.heads, at)
	if !begins {
		i--
	}
	return i, at - w.heads[i], w.end(i) - w.heads[i]
}

// end returns where in groups a cycle ends.
func (w *Process) end(cycle int) int {
	if cycle+1 < len(w.heads) {
		return w.heads[cycle+1]
	}
	return len(w.groups)
}

// Groups returns the groups of a cycle, from 0; nil past the last that is played.
func (w *Process) Groups(cycle int) []int {
	if cycle >= len(w.heads) {
		return nil
	}
	return w.groups[w.heads[cycle]:w.end(cycle)]
}

// Process returns the process of the reading, nil if it has none.
func (r *Reading) Process() *Process { return r.Segments[0].Process }

// least is how many groups must be as the loop has them: two cycles, or until two
// changes of a process are heard.
func (s *Segment) least() int {
	if s.Process != nil {
		return s.Process.heads[fewestChanges(s.Process.Rule)] + 1
	}
	return 2 * len(s.Loop)
}

// ProcessBits is what a process costs: its kind, then each of its numbers; a number
// that may be negative has a bit for its sign.
func ProcessBits(p *process.Rule) float64 {
	cost := kindBits + Gamma(int64(p.After))
	switch p.Kind {
	case process.Grow:
		cost += Gamma(p.By) + SignBits + Gamma(int64(p.Group)) + Gamma(int64(p.From)+1)
	case process.Rotate, process.Shift:
		cost += Gamma(p.By) + SignBits
	case process.Append:
		cost += Gamma(int64(p.Size))
	}
	return cost
}

// alignProcesses lays what processes play that may be heard in the places over the
// attacks; nil if there are none to try, or none is of at most so many bits.
func (r row) alignProcesses(places []int64, o Options, limit float64) *Reading {
	var best *Reading
	gaps := placeGaps(places)
	sizes, where := sizeSet(gaps), math.Log2(float64(r.n))
	for _, w := range processes(gaps) {
		next := r.alignProcess(w, sizes, where, limit+fewerSlips)
		if next != nil && o.allows(next) && (best == nil || next.isPreferred(best)) {
			best, limit = next, min(limit, next.Bits)
		}
	}
	return best
}

// fewerSlips is how many bits longer a reading of the same process may be if it has fewer
// exceptions.
const fewerSlips = 4

// isPreferred reports whether a process is taken rather than another: the one of fewer bits,
// or, where that is only a few, of fewer exceptions.
func (r *Reading) isPreferred(other *Reading) bool {
	saves := other.Bits - r.Bits
	if r.Process().Rule == other.Process().Rule && math.Abs(saves) <= fewerSlips && r.Exceptions() != other.Exceptions() {
		return r.Exceptions() < other.Exceptions()
	}
	return saves > 0
}

// variants returns processes that differ a little: in the first cycle, or in how much
// or which group changes.
func (w *Process) variants(attacks int) []*Process {
	var all []*Process
	add := func(cycle []int, rule process.Rule) {
		if other, ok := newProcess(cycle, rule, attacks); ok {
			all = append(all, other)
		}
	}
	for i := range w.Cycle {
		for _, by := range []int{1, -1} {
			cycle := slices.Clone(w.Cycle)
			cycle[i] += by
			add(slices.Clone(cycle), w.Rule)
			if next := (i + 1) % len(cycle); next != i {
				cycle[next] -= by
				add(cycle, w.Rule)
			}
		}
	}
	if w.Rule.Kind == process.Grow {
		for _, by := range []int64{1, -1} {
			if rule := w.Rule; rule.By+by != 0 {
				rule.By += by
				add(w.Cycle, rule)
			}
		}
	}
	return all
}
