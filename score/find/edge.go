package find

import (
	"fmt"

	"tieover/score/find/align"
)

// Edge is the earliest and the latest attack with which a stretch may begin. Where the
// loop before it goes on as its own begins, an attack may belong to either, for as many
// bits. The zero Edge means that only the stretch's first attack is possible.
type Edge struct {
	First, Last int   // attacks, from 0
	At, Until   int64 // their moments, in pulses from the start of the list
}

// findEdge returns the edge of a segment towards the one before.
func findEdge(all []align.Segment, k int, attacks []Hit) Edge {
	if k == 0 || all[k].Loop == nil || all[k-1].Loop == nil {
		return Edge{}
	}
	before, s := all[k-1], all[k]
	first, last := s.From, s.From
	m := len(s.Loop)
	for i := len(before.Steps) - 1; i > 0; i-- { // of the stretch before, at least one step stays
		back := s.From - first + 1
		if step := before.Steps[i]; step.IsException() || step.Pulses != s.Loop[(m-back%m)%m] {
			break
		}
		first--
	}
	next := 0
	for _, step := range before.Steps {
		next += before.Groups(step)
	}
	for i := 0; i+1 < len(s.Steps); i++ {
		if step := s.Steps[i]; step.IsException() || step.Pulses != before.Loop[(next+i)%len(before.Loop)] {
			break
		}
		last++
	}
	if first == last {
		return Edge{}
	}
	return Edge{first, last, attacks[first].At, attacks[last].At}
}

// beginning says with which attack a stretch begins.
func (s Stretch) beginning() string {
	word := "to"
	switch s.Edge.Last - s.Edge.First {
	case 0:
		return fmt.Sprintf("attack %d (pulse %d)", s.First+1, s.At+1)
	case 1:
		word = "or"
	}
	return fmt.Sprintf("attack %d %s %d (pulse %d %s %d)", s.Edge.First+1, word, s.Edge.Last+1, s.Edge.At+1, word, s.Edge.Until+1)
}
