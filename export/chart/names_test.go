package chart_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/export/chart"
)

// A chord stands as it is written on a staff, in whichever order it is named.
func TestChordsStandHighestFirst(t *testing.T) {
	for _, chord := range []string{"G4+B4+E5", "E5+B4+G4", "B4+G4+E5"} {
		got := written(t, "title: T\nmeter: 2/4\ntempo: 60\nlength: 1 bars\nlayers:\n  - {name: A, instrument: marimba, groups: 4, pitches: "+chord+"}\n",
			chart.Options{Width: 60, Pitches: true})
		assert.Regexp(t, `\n +E5 .*\n +B4 .*\n +G4 `, got, chord)
	}
}
