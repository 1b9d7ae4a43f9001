package score_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/score"
)

// From the lowest to the highest; B sharp 3 sounds as C4 and is written an octave lower;
// C sharp comes before D flat, its neighbor above. Drum sounds go by their number.
func TestToneCompare(t *testing.T) {
	tones := []score.Tone{{Step: 'D', Alter: -1, Octave: 4}, {Step: 'C', Octave: 4}, {Step: 'C', Alter: 1, Octave: 4}, {Step: 'B', Alter: 1, Octave: 3}, {Step: 'A', Octave: 3}}
	slices.SortFunc(tones, score.Tone.Compare)
	assert.Equal(t, []score.Tone{{Step: 'A', Octave: 3}, {Step: 'B', Alter: 1, Octave: 3}, {Step: 'C', Octave: 4}, {Step: 'C', Alter: 1, Octave: 4}, {Step: 'D', Alter: -1, Octave: 4}}, tones)
	assert.Positive(t, score.Tone{Drum: 3}.Compare(score.Tone{Drum: 2}))
	assert.Zero(t, score.Tone{Drum: 2}.Compare(score.Tone{Drum: 2}))
}

// Of two players of one layer in the second section and none in the first.
func TestLayersOf(t *testing.T) {
	sluice, gate := &score.Layer{Name: "Sluice"}, &score.Layer{Name: "Gate"}
	p := &score.Piece{Sections: []*score.Section{{Layers: []*score.Layer{gate}}, {Layers: []*score.Layer{gate, sluice}}}}
	var got []string
	for i, l := range p.LayersOf(score.Player{Layers: [][]int{nil, {1, 0}}}) {
		got = append(got, []string{"first ", "second "}[i]+l.Name)
	}
	assert.Equal(t, []string{"second Sluice", "second Gate"}, got)
}
