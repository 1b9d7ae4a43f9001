// Package timeline knows patterns that have published names, and what a
// listener may take a grouping for: a rotation of one of them, or the rotation
// that begins with its long groups.
package timeline

import (
	"slices"

	"tieover/score/analysis/grouping"
	"tieover/score/beat"
)

// Pattern is a named rhythm or additive meter.
type Pattern struct {
	Kind   Kind
	Name   string
	Rhythm grouping.Rhythm // may begin with a silence
	Source Source
}

// Source is where a name and its pattern are published.
type Source struct{ Short, Full string }

// Kind is what a pattern is used as.
type Kind int

const (
	Timeline Kind = iota // a bell, clave or drum pattern
	Meter                // the groups of a dance meter
)

// All returns the table. It is shared and not to be changed.
func All() []Pattern { return all }

func box(cells string) grouping.Rhythm {
	r, err := grouping.FromBox(cells)
	if err != nil {
		panic(err) // our own table
	}
	return r
}

// Match is a pattern that a rhythm is a rotation of.
type Match struct {
	Pattern Pattern
	// Turn is how many units after the rhythm's start the pattern starts, in
	// (-n/2, n/2]: 0 means that the rhythm is the pattern. If it can start at
	// several places it is the nearest, the later of two.
	Turn int
	// The pattern's length is Times/Over of the rhythm's, in lowest terms: 2/1
	// when the pattern is published in units half as long.
	Times, Over int
}

// Matches returns every pattern of the table that the rhythm is a rotation of,
// in values as long, longer or shorter: those that need no turn first, then
// those of the rhythm's own length, else in the table's order.
func Matches(r grouping.Rhythm) []Match {
	var found []Match
	for _, p := range all {
		if m, ok := match(r, p); ok {
			found = append(found, m)
		}
	}
	slices.SortStableFunc(found, func(a, b Match) int {
		return a.rank() - b.rank()
	})
	return found
}

// rank is where a match comes in the list.
func (m Match) rank() int {
	switch {
	case m.Turn == 0 && m.Times == m.Over:
		return 0
	case m.Turn == 0:
		return 1
	case m.Times == m.Over:
		return 2
	}
	return 3
}

func match(ours grouping.Rhythm, p Pattern) (Match, bool) {
	theirs := p.Rhythm
	if len(ours.Onsets) != len(theirs.Onsets) {
		return Match{}, false
	}
	own, other := commonUnit(ours), commonUnit(theirs)
	gaps, want := ours.Gaps(), theirs.Gaps()
	for i := range gaps {
		gaps[i] /= own
		want[i] /= other
	}
	k, ok := grouping.TurnTo(gaps, want)
	if !ok {
		return Match{}, false
	}
	d := beat.GCD(own, other)
	m := Match{Pattern: p, Times: other / d, Over: own / d}
	// The pattern's first onset is our onset k; its start may lie before that.
	at := ours.Onsets[k] - theirs.Onsets[0]/other*own
	period := ours.Units * grouping.Period(gaps) / len(gaps)
	m.Turn = nearestTurn(beat.Mod(at, period), period)
	return m, true
}

// commonUnit is the greatest unit on which the rhythm's onsets and end fall.
func commonUnit(r grouping.Rhythm) int {
	unit := r.Units
	for _, at := range r.Onsets {
		unit = beat.GCD(unit, at)
	}
	return unit
}

// Hearing is what a listener may take a rhythm for: the same groups begun
// elsewhere.
type Hearing struct {
	Groups    []int     // as they are heard
	Turn      int       // units from the rhythm's start to the heard one, in (-n/2, n/2], never 0
	LongFirst bool      // by the rule that long groups come first
	Patterns  []Pattern // those that the rhythm then is
}

// Hearings returns how a rhythm may be heard otherwise than it is written: with
// its long groups first, unless they stand so, and as a rotation of a named
// pattern, unless it is one (but what it is with its long groups first is always
// named). Patterns that begin with a silence are left out, for there is nothing
// to hear as a downbeat.
func Hearings(r grouping.Rhythm) []Hearing {
	if len(r.Onsets) == 0 {
		return nil
	}
	var all []Hearing
	gaps := r.Gaps()
	k := grouping.LongFirst(gaps)
	if turn := nearestTurn(r.Onsets[k], r.Units); turn != 0 {
		all = append(all, Hearing{Groups: grouping.Turn(gaps, k), Turn: turn, LongFirst: true})
	}
	matches := Matches(r)
	named := len(matches) > 0 && matches[0].Turn == 0
	for _, m := range matches {
		i := slices.IndexFunc(all, func(h Hearing) bool { return h.Turn == m.Turn })
		if m.Pattern.Rhythm.Onsets[0] > 0 || i < 0 && named {
			continue
		}
		if i < 0 {
			i = len(all)
			all = append(all, Hearing{Groups: r.Rotate(m.Turn).Gaps(), Turn: m.Turn})
		}
		all[i].Patterns = append(all[i].Patterns, m.Pattern)
	}
	return all
}

// nearestTurn returns at, which is in [0, n), as the nearest place round the circle.
func nearestTurn(at, n int) int {
	if 2*at > n {
		return at - n
	}
	return at
}
