package rows

import (
	"slices"

	"tieover/score"
	"tieover/score/process"
)

// Repeats reports whether the section is played again from its start.
func (ch *Chart) Repeats() bool { return ch.Section.End == score.Repeat }

// Moves reports whether a process moves a layer's head inside its cycle.
func (ch *Chart) Moves(layer int) bool {
	return slices.ContainsFunc(ch.Section.Layers[layer].Process, func(p score.Process) bool {
		return p.Kind == process.Rotate || p.Kind == process.Shift
	})
}

// Turns reports whether a process turns cycles of a layer round.
func (ch *Chart) Turns(layer int) bool {
	return slices.ContainsFunc(ch.Section.Layers[layer].Process, func(p score.Process) bool { return p.Kind == process.Retrograde })
}
