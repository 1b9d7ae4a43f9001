package engraving

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/export/engraving/pen"
	"tieover/layout"
	"tieover/score/spec/spectest"
)

// Accents, dots and dashes of the hands stand over the staff, of the feet below,
// whether they have the staff alone or not (common practice for drums).
func TestSidesOfDrumSigns(t *testing.T) {
	const hands = `
  - {name: Hat, player: Kit, instrument: drum set, groups: 2x4, pitches: closed hi-hat, touches: accent marcato}
  - {name: Tom, player: Kit, instrument: drum set, groups: 2x4, pitches: floor tom, touches: staccato tenuto}
`
	const feet = `
  - {name: Feet, player: Kit, instrument: drum set, groups: 4+4, pitches: kick, touches: accent}
`
	for name, c := range map[string]struct {
		layers       string
		above, below int
	}{
		"hands alone":     {hands, 8, 0},
		"feet alone":      {feet, 0, 2},
		"both":            {hands + feet, 8, 2},
		"one low drum":    {"\n  - {name: Tom, instrument: drum set, groups: 2x4, pitches: floor tom, touches: accent}\n", 4, 0},
		"a snare by hand": {"\n  - {name: S, instrument: drum set, groups: 2x4, pitches: snare, touches: marcato}\n", 4, 0},
	} {
		s, problems := layout.Lay(spectest.Read(t, "title: Kit\nlength: 1 bars\nlayers:"+c.layers), layout.Options{})
		require.NoError(t, problems.Err())
		above, below := 0, 0
		eachSystem(s, Options{}, func(sys *System, _ bool) {
			for _, b := range sys.boxes {
				switch {
				case b.What != "articulation":
				case b.Y1 < -2*pen.Space:
					above++
				case b.Y0 > 2*pen.Space:
					below++
				}
			}
		})
		assert.Equal(t, []int{c.above, c.below}, []int{above, below}, name)
	}
}

// A rest keeps clear of the heads, dots and ties of a note that sounds on in the voice
// above (D4 stands half a space below the staff, 2.5 spaces under its middle line).
func TestRestsUnderWhatSoundsOn(t *testing.T) {
	s, problems := layout.Lay(spectest.Read(t, `title: V
length: 1 bars
layers:
  - {name: High, player: V, instrument: violin, groups: 5+3, pitches: D4}
  - {name: Low, player: V, instrument: violin, box: ...x.x.x, pitches: A3}
`), layout.Options{})
	require.NoError(t, problems.Err())
	var rests []pen.Unit
	eachSystem(s, Options{}, func(sys *System, _ bool) {
		for _, b := range sys.boxes {
			if b.What == "rest" && b.X0 < sys.line.Middle(0) {
				rests = append(rests, b.Y0)
			}
		}
	})
	require.GreaterOrEqual(t, len(rests), 2)
	for _, top := range rests {
		assert.GreaterOrEqual(t, top, 3*pen.Space)
	}
}

// In a cue the player's rest of a whole bar, in the bar's middle, keeps clear of the small
// notes and dots that are there: F4 and D4 from beat 2.5 to 4, D4 as above.
func TestRestsUnderACue(t *testing.T) {
	p := spectest.Read(t, `title: Cue
length: 9 bars
layers:
  - {name: Harp, instrument: harp, groups: 3+3+2, pitches: C4+E4+G4 D4+F4 B3}
  - {name: Oboe, instrument: oboe, groups: 4+4, pitches: G4, enters: bar 9}
`)
	s, problems := layout.LayPart(p, layout.Options{Cues: layout.CueNotes}, 1)
	require.NoError(t, problems.Err())
	rests := 0
	eachSystem(s, Options{}, func(sys *System, _ bool) {
		for _, b := range sys.boxes {
			if b.What == "rest" {
				rests++
				assert.GreaterOrEqual(t, b.Y0, 3*pen.Space)
			}
		}
	})
	assert.Equal(t, 2, rests)
}

// The number of a tempo is not beside that of the bars of rest under it.
func TestTempoOverBarsOfRest(t *testing.T) {
	p := spectest.Read(t, `title: Rest
length: 48 bars
tempo: 96
layers:
  - {name: Harp, instrument: harp, groups: 3+3+2, pitches: C4}
  - {name: Oboe, instrument: oboe, line: "rest 320, G4 4, A4 4, C5 8, rest 16, D5 8, C5 8, rest 16"}
`)
	s, problems := layout.LayPart(p, layout.Options{Cues: layout.CueNotes}, 1)
	require.NoError(t, problems.Err())
	tempos := 0
	eachSystem(s, Options{}, func(sys *System, _ bool) {
		for _, b := range sys.boxes {
			if b.What == "mark" && b.X0 < sys.line.Middle(0) {
				tempos++
				assert.LessOrEqual(t, b.Y1, -pen.Unit(450), "the number of bars reaches 4.5 spaces up")
			}
		}
	})
	assert.Equal(t, 1, tempos)
}
