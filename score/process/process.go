package process

import (
	"slices"

	"tieover/score/beat"
)

// Kind is what a rule does to the cycle.
type Kind int

const (
	Grow Kind = iota
	Rotate
	Shift
	Retrograde
	Append
)

// Rule changes the cycle from one pass to the next.
type Rule struct {
	Kind Kind

	By    int64 // pulses for Grow and Shift, groups for Rotate; may be negative
	Group int   // Grow: which group changes, from 1
	From  int   // Grow: which group gives, from 1; 0: the cycle itself changes
	Size  int   // Append: pulses of the new group

	After int  // a change after each After passes, at least 1; Retrograde: every After-th cycle is reversed
	Hold  bool // Grow: a growth that is spent is no mistake
}

// Group is one group of a cycle while rules change it.
type Group struct {
	Size  int  // in pulses
	Spec  int  // which group of the pattern it is, from 1; appended groups go on counting
	Blank bool // it is silent
}

// State is what rules have made of patterns when a cycle begins; cycles play the
// patterns by turns.
type State struct {
	rules    []Rule
	start    [][]Group // in the first cycle
	patterns []pattern
	passes   int
	shift    int64   // pulses, of all cycles
	spent    int     // the rule, from 1; 0: none
	still    []Shape // without rules: of each pattern, for ever
}

type pattern struct {
	groups []Group // in spec order; shared between states, so never changed in place
	first  int     // with which of them a cycle begins
}

// New returns the state of the first cycle. Nobody may change the groups and
// rules while it is in use.
func New(patterns [][]Group, rules []Rule) *State {
	st := &State{rules: rules, start: patterns, patterns: make([]pattern, len(patterns))}
	st.Reset()
	if len(rules) == 0 {
		still := make([]Shape, len(patterns))
		for i := range still {
			still[i] = st.Shape(i)
		}
		st.still = still
	}
	return st
}

// Clone returns a state that goes on by itself.
func (st *State) Clone() *State {
	own := *st
	own.patterns = slices.Clone(st.patterns)
	return &own
}

// Reset takes all changes back; the cycle is the first again.
func (st *State) Reset() {
	st.passes, st.shift, st.spent = 1, 0, 0
	for i, groups := range st.start {
		st.patterns[i] = pattern{groups: groups}
	}
}

// Passes returns how many cycles have begun since the start or the last reset;
// 1 in the first.
func (st *State) Passes() int { return st.passes }

// Spent returns the rule, from 0, that found no group with a pulse to give, the
// last one if there are several; ok is false while all could give.
func (st *State) Spent() (rule int, ok bool) { return st.spent - 1, st.spent > 0 }

// Moved returns by how many pulses shifts have moved the cycle so far, earlier
// if negative.
func (st *State) Moved() int64 { return st.shift }

// Step moves on to the next cycle.
func (st *State) Step() {
	st.passes++
	for i := range st.rules {
		r := &st.rules[i]
		if r.Kind == Retrograde || (st.passes-1)%r.After != 0 {
			continue
		}
		switch r.Kind {
		case Rotate:
			st.rotate(r.By)
		case Shift:
			st.shift += r.By
		case Append:
			for j := range st.patterns {
				st.patterns[j].add(r.Size)
			}
		case Grow:
			for j := range st.patterns {
				if !st.patterns[j].grow(r) && !r.Hold {
					st.spent = i + 1
				}
			}
		}
	}
}

// rotate lets cycles begin by groups further on, or back when it is negative.
func (st *State) rotate(by int64) {
	for j := range st.patterns {
		if p := &st.patterns[j]; len(p.groups) > 0 {
			p.first = int(beat.Mod(int64(p.first)+by, int64(len(p.groups))))
		}
	}
}

// Skip moves on by n cycles in which no size changes, at once.
func (st *State) Skip(n int) {
	for _, r := range st.rules {
		changes := int64((st.passes-1+n)/r.After - (st.passes-1)/r.After)
		switch r.Kind {
		case Rotate:
			st.rotate(changes * r.By)
		case Shift:
			st.shift += changes * r.By
		}
	}
	st.passes += n
}

// IsStill reports whether no rule will change a size any more.
func (st *State) IsStill() bool {
	for i := range st.rules {
		r := &st.rules[i]
		if r.Kind == Append || r.Kind == Grow && !r.Hold {
			return false
		}
		if r.Kind != Grow {
			continue
		}
		for _, p := range st.patterns {
			if after, ok := growGroups(p.groups, r); ok || !slices.Equal(after, p.groups) {
				return false
			}
		}
	}
	return true
}

// IsHome reports whether cycles and rules are as they were in the first cycle, so
// that everything comes again.
func (st *State) IsHome() bool {
	for _, r := range st.rules {
		if (st.passes-1)%r.After != 0 {
			return false
		}
	}
	for i, p := range st.patterns {
		if !slices.Equal(p.groups, st.start[i]) {
			return false
		}
	}
	return st.headsUnmoved()
}

// HeadsAreHome reports whether rotation, shift, the counts of their After and, where
// it turns a rotation round, the count of retrograde are as they were in the first
// cycle.
func (st *State) HeadsAreHome() bool {
	rotates := slices.ContainsFunc(st.rules, func(r Rule) bool { return r.Kind == Rotate })
	for _, r := range st.rules {
		moves := r.Kind == Rotate || r.Kind == Shift || r.Kind == Retrograde && rotates
		if moves && (st.passes-1)%r.After != 0 {
			return false
		}
	}
	return st.headsUnmoved()
}

// headsUnmoved reports whether each cycle begins with its first group, unmoved.
func (st *State) headsUnmoved() bool {
	for _, p := range st.patterns {
		if pulses := Pulses(p.groups); pulses > 0 && (p.first != 0 || st.shift%pulses != 0) {
			return false
		}
	}
	return true
}

// isBackwards reports whether this cycle is played in retrograde.
func (st *State) isBackwards() bool {
	turned := false
	for i := range st.rules {
		if st.rules[i].Kind == Retrograde && st.passes%st.rules[i].After == 0 {
			turned = !turned
		}
	}
	return turned
}
