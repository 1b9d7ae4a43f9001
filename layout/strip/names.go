package strip

import "tieover/score"

// The names of the model that a chart prints from, so that a typesetter needs
// no other package.
type (
	Piece = score.Piece
	Entry = score.PlanEntry
	Tempo = score.Tempo
	Tone  = score.Tone
)

// Hairpins of a plan entry.
const (
	Growing = score.Crescendo
	Fading  = score.Diminuendo
)

// Repeats reports whether the section is played again from its start.
func (st *Strip) Repeats() bool { return st.Section.End == score.Repeat }
