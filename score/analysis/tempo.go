package analysis

import (
	"fmt"

	"tieover/score"
	"tieover/score/beat"
)

// NewTempo returns the tempo in quarters after a pivot: the old value lasts as
// long as the new one, both in whole notes (the usual reading of "old = new").
func NewTempo(quarters, oldValue, newValue beat.Span) beat.Span {
	return quarters.Mul(newValue.Over(oldValue))
}

// Pivot is a tempo that a layer prepares: something it plays becomes the new
// quarter, and the ear has heard it already.
type Pivot struct {
	Value   beat.Span // the old value
	What    string    // "a group of 3 of Marimba", "the pulse of Bell"
	Quarter beat.Span // the new tempo if it becomes the quarter
}

// pivotsOf lists what the layers play that is no quarter: pulses of layers that
// have their own, and groups, each length once.
func pivotsOf(s *score.Section) []Pivot {
	var all []Pivot
	seen := map[beat.Span]bool{beat.Of(1, 4): true}
	add := func(value beat.Span, format string, args ...any) {
		if seen[value] {
			return
		}
		seen[value] = true
		all = append(all, Pivot{value, fmt.Sprintf(format, args...), NewTempo(s.Tempo.Quarters, value, beat.Of(1, 4))})
	}
	for _, l := range s.Layers {
		for _, p := range l.Patterns {
			for _, item := range p.Groups {
				if !item.Blank {
					add(l.Pulse.Span().Times(int64(item.Size)), "a group of %d of %s", item.Size, l.Name)
				}
			}
		}
	}
	for _, l := range s.Layers {
		if l.Pulse != s.Pulse {
			add(l.Pulse.Span(), "the pulse of %s", l.Name)
		}
	}
	return all
}
