package engraving

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/layout"
	"tieover/score/spec/spectest"
)

// Where beams over barlines turn the stems of one staff, the other keeps the sign that
// stands in place of its notes.
func TestRepeatsBesideBeamsOverBarlines(t *testing.T) {
	p := spectest.Read(t, `title: Weir
meter: 4/4
length: 6 bars
layers:
  - {name: Right, player: Keys, instrument: piano, groups: 3+3, figures: {3: xxx}, pitches: E5 A4 C5, written: repeats}
  - {name: Left, player: Keys, instrument: piano, groups: 4+4, pitches: C3 G3, written: repeats}
`)
	s, problems := layout.LayPart(p, layout.Options{BeamOverBarlines: true}, 0)
	require.NoError(t, problems.Err())
	assert.Empty(t, faults(s, Options{}))
}
