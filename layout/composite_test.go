package layout

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/layout/sheet"
	"tieover/score/instrument"
)

// a 3+3+2, b 2+3+3 eighths: attacks 0 3 6 and 0 2 5: composite 0 2 3 5 6.
func TestComposite(t *testing.T) {
	p := read(t, `title: Weir
meter: 4/4
length: 2 bars
layers:
  - {name: A, instrument: marimba, groups: 3+3+2, pitches: E5 B4 G4}
  - {name: B, instrument: marimba, groups: 2+3+3, pitches: C4 D4 E4}
`)
	s, problems := LayComposite(p, Options{}, Composite{})
	require.NoError(t, problems.Err())
	require.NoError(t, sheet.Check(s, &s.Parts[0]))
	assert.Equal(t, "q (e e)~(e e) q | q (e e)~(e e) q", rhythm(s))
	var heads []string
	for sound := range sheet.Sounds(&s.Parts[0]) {
		text := ""
		for _, h := range sound.Heads {
			text += h.String()
		}
		heads = append(heads, text)
	}
	assert.Equal(t, []string{"C4E5", "D4", "B4", "E4", "G4", "C4E5", "D4", "B4", "E4", "G4"}, heads)

	_, problems = LayComposite(p, Options{}, Composite{Layers: []string{"C"}})
	assert.ErrorContains(t, problems.Err(), `no section has a layer "C"`)
	alone, problems := LayComposite(p, Options{}, Composite{Layers: []string{"B"}, Instrument: instrument.Rhythm})
	require.NoError(t, problems.Err())
	assert.Equal(t, "q q~e q. | q q~e q.", unbeamed(rhythm(alone)))
}

func TestPartner(t *testing.T) {
	s := single(t, Options{Partner: "Marimba"}, 1, lockRound)
	require.Len(t, s.Parts, 2)
	assert.Equal(t, "Marimba", s.Parts[0].Name)
	assert.Equal(t, 1, s.Parts[0].Staves[0].Lines)
	assert.True(t, s.Parts[0].Staves[0].Small)
	assert.Equal(t, "q. q q q.", strings.Split(rhythm(s), " | ")[0])
	assert.Equal(t, []string{"1.0 B", "7.0 B1"}, marksOf(&s.Parts[0], sheet.Rehearsal))
	assert.Empty(t, marksOf(&s.Parts[0], sheet.CycleNumber), "only its rhythm")
	_, problems := LayPart(read(t, lockRound), Options{Partner: "Tuba"}, 1)
	assert.ErrorContains(t, problems.Err(), `no section has a layer "Tuba"`)
}

// A partner has the bars of the part, so that its own cycles need not be any: one of 70
// eighths is no bar (64 units are the most).
func TestPartnerInOwnBars(t *testing.T) {
	s := single(t, Options{Partner: "Tow", Barring: Barring{View: Own}}, 0, `title: Weir
meter: 4/4
length: 2 bars
layers:
  - {name: Sluice, groups: 2+4}
  - {name: Tow, groups: 35+35}
`)
	assert.Equal(t, []string{"2+4/8", "2+4/8", "2+2/8"}, signatures(&s.Parts[0]))
	assert.Equal(t, "h. | ~h. | ~h", rhythm(s))
}

// A section in which no layer of the composite plays asks nothing of anybody.
func TestUnplayable(t *testing.T) {
	const chord = "title: T\nmeter: 4/4\nlength: 1 bar\nlayers: [{name: %s, instrument: marimba, groups: 8, pitches: C3+E3+G3+C4+E4}]\n"
	p := read(t, fmt.Sprintf(chord, "Sluice"), fmt.Sprintf(chord, "Gate"))
	problems := Composite{Layers: []string{"Gate"}}.Unplayable(p)
	require.Len(t, problems, 1)
	assert.Equal(t, "bar 2 beat 1: 5 notes at once (C3+E3+G3+C4+E4), a player of the marimba has 4", problems[0].Text)
	assert.ErrorContains(t, Composite{Layers: []string{"Weir"}}.Unplayable(p).Err(), `no section has a layer "Weir"`)
}

// A composite stands on one staff, also on an instrument that reads two: the
// treble staff for a median of G4, the bass staff for one of A2.
func TestCompositeHasOneStaff(t *testing.T) {
	for pitches, sign := range map[string]byte{"E5 G4 C4": 'G', "E3 A2 C2": 'F'} {
		p := read(t, `title: T
meter: 4/4
length: 2 bars
layers:
  - {name: Upper, player: Winch, instrument: piano, groups: 3+3+2, pitches: `+pitches+`}
  - {name: Lower, player: Winch, instrument: piano, groups: 4+4, pitches: `+pitches+`}
`)
		s, problems := LayComposite(p, Options{}, Composite{})
		require.NoError(t, problems.Err())
		require.NoError(t, sheet.Check(s, &s.Parts[0]))
		require.Len(t, s.Parts[0].Staves, 1, pitches)
		assert.Equal(t, sign, s.Parts[0].Staves[0].Clef.Sign, pitches)
		v := firstBar(&s.Parts[0]).Measure.Voices
		require.Len(t, v, 1)
		assert.Equal(t, []int{1, 1}, []int{v[0].Staff, v[0].Number})
	}
}
