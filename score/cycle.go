package score

import (
	"slices"
	"sort"

	"tieover/score/beat"
	"tieover/score/fingering"
)

// Cycle is one pass through a layer's groups. Its groups and attacks are timed
// from its start, so equal cycles share their slices, which must not be changed.
type Cycle struct {
	Layer  int // index into Section.Layers
	Index  int // from 1 since the layer's entry
	Number int // from 1 since the last realignment or restart, as it is printed

	Start  beat.Time // before 0, or before the entry, if it begins before it sounds
	Length beat.Time // of the whole cycle, cut or not
	Sounds beat.Time // how much of it there is: Length, or less when it is cut by a loop rule, the layer's leaving or the section's end
	Head   beat.Time // where the figure begins, from Start: group 1 of the spec, in a retrograde cycle the group before it; in [0, Length)

	Groups  []Group  // in played order; they tile [0, Length)
	Attacks []Attack // in time order, all in [0, Sounds)

	Changed bool // the sizes differ from those of the cycle before, or there is none
	Cut     Cut
	Landing bool // not a pass but the one head attack after the section's end
}

// Cut says what ended a cycle early.
type Cut int

const (
	NotCut Cut = iota
	CutByLoop
	CutByLeaving
	CutByEnd
)

func (c Cut) String() string { return [...]string{"", "loop", "leaves", "end"}[c] }

// End returns the moment the cycle stops.
func (c *Cycle) End() beat.Time { return c.Start + c.Sounds }

// Group is one group of a cycle as it is played.
type Group struct {
	At, Length beat.Time // from the cycle's start; the length before any cut
	Size       int       // in pulses of the layer, after processes; the whole group's also for a tail
	Spec       int       // which group of the spec it is, from 1
	Blank      bool
	Tail       bool // the rest of a group that a shift laid across the cycle's edge
}

// Attack is one sounded event.
type Attack struct {
	At, Length beat.Time       // from the cycle's start; the length may run past the cycle's edge
	Tones      Chord           // sounding; one bare tone when the layer has no series
	Graces     []Chord         // what leads in to it, in order; no attacks
	Hand       *fingering.Hand // where its tones, and those of grace notes that the spec writes, are stopped; nil without tablature
	Accent     bool
	Touch      Touch
	Group      int // index into Cycle.Groups
}

// outside returns the parts of a group that lie outside [from, to), at most
// two; a part that does not begin the group is its tail.
func outside(g Group, from, to beat.Time) []Group {
	end := g.At + g.Length
	if end <= from || g.At >= to {
		return []Group{g}
	}
	var parts []Group
	if g.At < from {
		head := g
		head.Length = from - g.At
		parts = append(parts, head)
	}
	if end > to {
		tail := g
		tail.At, tail.Length, tail.Tail = to, end-to, true
		parts = append(parts, tail)
	}
	return parts
}

// inside returns the part of a group inside [from, to).
func inside(g Group, from, to beat.Time) Group {
	end := min(g.At+g.Length, to)
	if g.At < from {
		g.At, g.Tail = from, true
	}
	g.Length = end - g.At
	return g
}

func sortGroups(groups []Group) {
	slices.SortFunc(groups, func(a, b Group) int { return int(a.At - b.At) })
}

// regroup puts the attacks in order and points each at the group that holds it.
func regroup(c *Cycle) {
	slices.SortFunc(c.Attacks, func(a, b Attack) int { return int(a.At - b.At) })
	for i := range c.Attacks {
		c.Attacks[i].Group = groupAt(c.Groups, c.Attacks[i].At)
	}
}

// groupAt returns the index of the group that holds a moment; groups are in order.
func groupAt(groups []Group, at beat.Time) int {
	return sort.Search(len(groups), func(i int) bool { return groups[i].At > at }) - 1
}
