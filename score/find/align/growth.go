package align

import (
	"cmp"
	"maps"
	"math"
	"slices"

	"tieover/score/process"
)

// Bounds of the processes that are looked for.
const (
	longestGrown    = 12 // groups of the first cycle
	mostBy          = 8  // pulses that a cycle changes by
	rarestChange    = 3  // cycles between changes
	farthestOff     = 3  // groups that slips before have moved a cycle by
	mostProcesses   = 6
	fewestWitnesses = 2 // pairs of cycles that agree on a process
)

// processes returns processes that may be heard in the distances, the most promising
// first. Any two neighboring cycles may be without a slip. Which cycles they are, and so
// what the first cycle was, follows from how many groups come before them.
func processes(gaps []int) []*Process {
	if len(gaps) > longestProcess {
		return nil
	}
	l := &processList{gaps: gaps, by: map[string]*witnessed{}}
	l.firsts()
	for m := 1; m <= min(longestGrown, len(gaps)/3); m++ {
		for after := 1; after <= rarestChange; after++ {
			for i := 0; i+(after+1)*m <= len(gaps); i++ {
				l.growth(i, m, after)
			}
		}
		l.appended(m)
	}
	return l.choose()
}

// processList counts for each process the pairs of cycles that suggest it.
type processList struct {
	gaps []int
	by   map[string]*witnessed
}

type witnessed struct {
	cycle []int
	rule  process.Rule
	by    map[int]bool // where the pairs begin that suggest it
}

// add notes that a pair of cycles suggests a process.
func (l *processList) add(at int, cycle []int, rule process.Rule) {
	if slices.ContainsFunc(cycle, func(size int) bool { return size < 1 }) {
		return
	}
	key := sizesKey(append([]int{int(rule.Kind), int(rule.By), rule.Group, rule.From, rule.Size, rule.After}, cycle...))
	w := l.by[key]
	if w == nil {
		w = &witnessed{cycle: cycle, rule: rule, by: map[int]bool{}}
		l.by[key] = w
	}
	w.by[at] = true
}

// growth compares m groups with those that follow after so many cycles of them: one may
// have changed, or have taken from another.
func (l *processList) growth(i, m, after int) {
	to, from, by, ok := l.change(i, m, after)
	if !ok {
		return
	}
	for off := -farthestOff; off <= farthestOff; off++ {
		if i+off < 0 {
			continue
		}
		cycle := make([]int, m)
		rule := process.Rule{Kind: process.Grow, By: int64(by), After: after}
		for q := range m {
			place := i + off + q // of the group, if no slip came before
			group, changes := place%m, place/m/after
			cycle[group] = l.gaps[i+q]
			switch q {
			case to:
				rule.Group = group + 1
				cycle[group] -= by * changes
			case from:
				rule.From = group + 1
				cycle[group] += by * changes
			}
		}
		l.add(i, cycle, rule)
	}
}

// change returns by how much one of m groups has changed after so many cycles, and
// which gave that, -1 if none. ok is false when nothing or more has changed.
func (l *processList) change(i, m, after int) (to, from, by int, ok bool) {
	to, from = -1, -1
	first, last := l.gaps[i:i+m], l.gaps[i+after*m:i+(after+1)*m]
	for q := range m {
		switch d := last[q] - first[q]; {
		case d == 0:
		case to < 0:
			to, by = q, d
		case from < 0 && d == -by:
			from = q
		default:
			return 0, 0, 0, false
		}
	}
	if to < 0 || by > mostBy || by < -mostBy {
		return 0, 0, 0, false
	}
	changed := false
	for at := i + m; at < i+after*m; at++ { // between them each cycle is as the first, and then as the last
		q := (at - i) % m
		if first[q] == last[q] {
			if l.gaps[at] != first[q] {
				return 0, 0, 0, false
			}
			continue
		}
		switch l.gaps[at] {
		case first[q]:
			if changed && q == to {
				return 0, 0, 0, false
			}
		case last[q]:
			changed = true
		default:
			return 0, 0, 0, false
		}
	}
	if from >= 0 && by < 0 { // the one that gets longer is the one that takes
		to, from, by = from, to, -by
	}
	return to, from, by, true
}

// firsts suggests that the first groups are a cycle to which a usual group is added: its
// cycles get so long that hardly two of them are without a slip.
func (l *processList) firsts() {
	for _, size := range l.usual() {
		for m := 1; m <= min(longestGrown, len(l.gaps)/3); m++ {
			for after := 1; after <= rarestChange; after++ {
				rule := process.Rule{Kind: process.Append, Size: size, After: after}
				l.add(0, l.gaps[:m], rule)
				l.add(m, l.gaps[:m], rule)
			}
		}
	}
}

// usual returns the most frequent distances, two at most.
func (l *processList) usual() []int {
	times := map[int]int{}
	for _, gap := range l.gaps {
		times[gap]++
	}
	all := slices.SortedFunc(maps.Keys(times), func(a, b int) int { return cmp.Or(cmp.Compare(times[b], times[a]), cmp.Compare(a, b)) })
	return all[:min(2, len(all))]
}

// appended finds m groups that are heard again with one more after them.
func (l *processList) appended(m int) {
	for i := 0; i+2*m < len(l.gaps); i++ {
		if !slices.Equal(l.gaps[i:i+m], l.gaps[i+m:i+2*m]) {
			continue
		}
		size := l.gaps[i+2*m]
		for after := 1; after <= rarestChange; after++ {
			before := 0 // groups
			for added := 0; added < m; added++ {
				if added > 0 && l.gaps[i+m-added] != size {
					break
				}
				first := m - added
				before = after * (added*first + added*(added-1)/2) // of all cycles with fewer groups
				before += (after - 1) * m
				if off := i - before; off >= -farthestOff && off <= farthestOff {
					l.add(i, slices.Clone(l.gaps[i:i+first]), process.Rule{Kind: process.Append, Size: size, After: after})
				}
			}
		}
	}
}

// choose plays the processes that pairs of cycles suggest, and keeps those that save most
// bits, if the distances that they agree on cost nothing.
func (l *processList) choose() []*Process {
	per := math.Log2(float64(len(sizeSet(l.gaps)))) + 0.3
	type weighed struct {
		*Process
		saves float64
		key   string
	}
	var all []weighed
	for key, w := range l.by {
		if len(w.by) < fewestWitnesses {
			continue
		}
		if p, ok := newProcess(w.cycle, w.rule, len(l.gaps)+1); ok {
			if saves := float64(p.agreement(l.gaps))*per - p.bits; saves > 0 {
				all = append(all, weighed{p, saves, key})
			}
		}
	}
	slices.SortFunc(all, func(a, b weighed) int {
		return cmp.Or(cmp.Compare(b.saves, a.saves), cmp.Compare(len(a.Cycle), len(b.Cycle)), cmp.Compare(a.key, b.key))
	})
	var best []*Process
	for _, w := range all {
		if !slices.ContainsFunc(best, func(p *Process) bool { return slices.Equal(p.groups, w.groups) }) {
			best = append(best, w.Process)
		}
		if len(best) == mostProcesses {
			break
		}
	}
	return best
}

// agreement counts the distances that a process has too, in its order, minus two for each
// that differs, is left out or is put in between: most exceptions are two of these.
func (w *Process) agreement(gaps []int) int {
	const off, slip, never = 8, 2, -1 << 30
	var before, row [2*off + 1]int // of each offset of the process, until a distance
	for o := range before {
		before[o] = never
	}
	before[off] = 0
	for i, gap := range gaps {
		for o := range row {
			at := i + o - off
			row[o] = before[o] - slip
			if at >= 0 && at < len(w.groups) && w.groups[at] == gap {
				row[o] = before[o] + 1
			}
			if o+1 < len(row) { // a distance too many
				row[o] = max(row[o], before[o+1]-slip)
			}
			if o > 0 { // a group left out
				row[o] = max(row[o], row[o-1]-slip)
			}
		}
		before = row
	}
	return slices.Max(before[:])
}
