package find

import "tieover/score/process"

// fewestCycles is how many cycles a process must be heard for.
const fewestCycles = 3

// processes looks for a cycle of m groups that changes from pass to pass. For
// each m the first cycles that are alike are counted, the first that differs
// suggests the processes that could have made it, and each suggestion is
// played to the end of the list.
func (ln *line) processes() {
	x := ln.items
	n := len(x)
	plain := 0 // values from the start that a shorter cycle explains
	sums := sumsOf(x)
	for m := 1; m <= min(n/2, longestCycle, ln.most); m++ {
		run := m
		for run < n && x[run] == x[run-m] {
			run++
		}
		alike := run / m // cycles that are the same as the first
		looped := plain
		if alike > 1 {
			plain = max(plain, run)
		}
		if run == n {
			continue
		}
		first := x[:m]
		try := func(p process.Rule) {
			if p.Kind == process.Retrograde && ln.strike == All { // what is turned then begins with its accents
				return
			}
			ln.offer(first, p)
			if alike > 1 && p.After == alike && m <= longestPaired && ln.strike == Hold {
				for _, p := range earlierChanges(p, m) {
					ln.offer(first, p, process.Rule{Kind: process.Retrograde, After: alike})
				}
			}
		}
		if second := x[alike*m:]; len(second) >= m {
			if sums[m] == sums[(alike+1)*m]-sums[alike*m] { // else they are not the same groups
				for _, p := range turns(first, second[:m]) {
					try(afterCycles(p, alike))
				}
			}
		}
		if m <= longestPaired && ln.strike != All && looped < (alike+2)*m {
			ln.severalAtOnce(first, x[alike*m:], alike)
		}
		for _, p := range growths(first, x[alike*m:]) {
			p.After = alike
			try(p)
		}
		for after := max(1, alike-2); after < alike && (after+1)*m < n; after++ {
			if added := x[(after+1)*m]; !added.Blank {
				try(process.Rule{Kind: process.Append, Size: int(added.Size), After: after})
			}
		}
	}
}

// earlierChanges suggests that a rotation or growth began a cycle earlier, which then
// sounded like the first because it was turned round. If that was the second
// cycle, the third has changed twice.
func earlierChanges(p process.Rule, m int) []process.Rule {
	if p.Kind != process.Rotate && p.Kind != process.Grow {
		return nil
	}
	if p.After--; p.After > 1 {
		return []process.Rule{p}
	}
	var all []process.Rule
	for _, twice := range []int64{p.By, p.By + int64(m), p.By - int64(m)} {
		if p.By = twice / 2; twice%2 == 0 && p.By != 0 {
			all = append(all, p)
		}
		if p.Kind == process.Grow {
			break
		}
	}
	return all
}

// isHeard reports whether the processes of a description that fits have had time to
// show, and twice all that where they start over.
func (d *Description) isHeard() bool {
	cycles := d.Cycles
	if d.Rest > 0 {
		cycles--
	}
	need := cyclesToHear(d.Process, d.Reset > 0)
	if d.Reset > 0 {
		if len(d.Groups) == 1 {
			return false // 1, 2, 3 from the start again is a cycle of 1+2+3 to everybody
		}
		return d.Reset >= int64(need) && int64(cycles) >= 2*d.Reset
	}
	return cycles >= need
}

// cyclesToHear returns how many cycles it takes to hear what the rules do: three, and two
// changes of each unless turning the cycle round is all that happens.
func cyclesToHear(rules []process.Rule, reset bool) int {
	need := fewestCycles
	for _, p := range rules {
		switch {
		case p.Kind != process.Retrograde:
			need = max(need, 2*p.After+1)
		case len(rules) > 1 || reset: // among other changes once is chance
			need = max(need, 2*p.After)
		default:
			need = max(need, p.After)
		}
	}
	return need
}
