package task

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/layout/sheet"
	"tieover/score"
)

// An exercise shows neither rolls nor grace notes, whichever way they are written.
func TestExercisesAreUnadorned(t *testing.T) {
	e, why := one(t, Cut, 1, "meter: 7/8\nlength: 15 bars\nlayers:\n"+
		"  - {name: A, instrument: flute, groups: 3+2+2, pitches: D5/E5 C5, touches: roll+accent flam}\n  - {name: B, groups: 3+2, touches: trill drag}\n")
	require.Empty(t, why)
	notes := 0
	for i := range e.Solution.Sheet.Parts {
		for b := range e.Solution.Sheet.Parts[i].Bars() {
			for _, v := range b.Measure.Voices {
				for _, event := range v.Events {
					if n, ok := event.(*sheet.Note); ok {
						notes++
						assert.Empty(t, n.Graces)
						assert.Zero(t, n.Touch&^score.Accented)
					}
				}
			}
		}
	}
	assert.Positive(t, notes)
}
