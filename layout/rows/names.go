package rows

import "tieover/score"

// The names of the model that a chart prints from, so that a typesetter needs
// no other package.
type (
	Piece = score.Piece
	Entry = score.PlanEntry
	Tempo = score.Tempo
	Tone  = score.Tone
	Touch = score.Touch
)

// Touches that have a sign.
const (
	Accented = score.Accented
	Marcato  = score.Marcato
	Ghost    = score.Ghost
	Staccato = score.Staccato
	Tenuto   = score.Tenuto
)

// Hairpins of a plan entry.
const (
	Growing = score.Crescendo
	Fading  = score.Diminuendo
)

// Repeats reports whether the section is played again from its start.
func (st *Chart) Repeats() bool { return st.Section.End == score.Repeat }

// Moves reports whether a process moves a layer's group 1 inside its cycle.
func (st *Chart) Moves(layer int) bool {
	for _, p := range st.Section.Layers[layer].Process {
		if p.Kind == score.Rotate || p.Kind == score.Shift {
			return true
		}
	}
	return false
}

// Letter returns the letter by which the nth layer is called, from 0.
func Letter(n int) string { return score.LayerLetter(n) }
