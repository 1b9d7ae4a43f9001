package staves_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/layout/bar"
	"tieover/layout/sheet"
	"tieover/layout/staves"
	"tieover/score"
	"tieover/score/instrument"
	"tieover/score/source"
	"tieover/score/spec"
)

// winch is what one player, Winch, reads; each layer is its name, and what else the
// spec says of it.
func winch(t *testing.T, ins string, layers ...string) (staves.Plan, *score.Piece, source.Problems) {
	t.Helper()
	if ins != "" {
		ins = "instrument: " + ins + ", "
	}
	text := "title: Weir\nmeter: 4/4\nlength: 4 bars\nlayers:\n"
	for i, more := range layers {
		text += fmt.Sprintf("  - {name: L%d, player: Winch, %s%s}\n", i+1, ins, more)
	}
	p, problems := spec.Read([]spec.File{{Name: "weir.yaml", Text: []byte(text)}})
	require.NoError(t, problems.Err())
	player := p.Players()[0]
	return staves.ForPlayer(p, player, bar.NewTransposer(player.Instrument, false), &problems), p, problems
}

// shown writes each voice as staff.number, its layers and its stems.
func shown(p staves.Plan) (all []string) {
	for _, v := range p.Voices {
		names := v.Layer
		if v.Layers != nil {
			names = strings.Join(v.Layers, "+")
		}
		all = append(all, strings.TrimSpace(fmt.Sprintf("%d.%d %s %v", v.Staff, v.Number, names, v.Stem)))
	}
	return all
}

func signs(p staves.Plan) (all string) {
	for _, s := range p.Staves {
		all += string(rune(s.Clef.Sign))
	}
	return all
}

// Voices of pitched instruments, and the clefs of their staves. A voice is staff.number.
func TestForPlayer(t *testing.T) {
	for _, c := range []struct {
		name, ins string
		layers    []string
		want      []string
		clefs     string
	}{
		{"one layer leaves its stems to the reader", "marimba", []string{"groups: 4+4, pitches: E4 G4"}, []string{"1.1 L1"}, "G"},
		{"of two, the higher has its stems up wherever the spec has it", "marimba",
			[]string{"groups: 4+4, pitches: E4 G4 A4", "groups: 3+3+2, pitches: C5 D5 E5"}, []string{"1.1 L1 down", "1.2 L2 up"}, "G"},
		{"of three the higher two", "marimba",
			[]string{"groups: 4+4, pitches: C4", "groups: 3+3+2, pitches: C5", "groups: 2+6, pitches: G4"},
			[]string{"1.1 L1 down", "1.2 L2 up", "1.3 L3 up"}, "G"},
		{"hands of a keyboard", "piano", []string{"groups: 4+4, pitches: E5", "groups: 3+3+2, pitches: C3"}, []string{"1.1 L1", "2.5 L2"}, "GF"},
		{"the first two of three are above", "piano",
			[]string{"groups: 4+4, pitches: E5", "groups: 2+6, pitches: C5", "groups: 3+3+2, pitches: C3"},
			[]string{"1.1 L1 up", "1.2 L2 down", "2.5 L3"}, "GF"},
		{"a single layer of middle C and up is above", "piano", []string{"groups: 4+4, pitches: C4"}, []string{"1.1 L1"}, "GF"},
		{"one below it is on the lower staff, with rests above", "piano", []string{"groups: 4+4, pitches: B3"}, []string{"1.1", "2.5 L1"}, "GF"},
		{"so have several without an instrument", "", []string{"groups: 4+4", "line: rest 8"}, []string{"1.1 L1 up", "1.2 L2 up"}, "P"},
		{"a rhythm on one line has its stems up", "woodblock", []string{"groups: 4+4"}, []string{"1.1 L1 up"}, "P"},
	} {
		p, _, problems := winch(t, c.ins, c.layers...)
		assert.Empty(t, problems, c.name)
		assert.Equal(t, c.want, shown(p), c.name)
		assert.Equal(t, c.clefs, signs(p), c.name)
	}
}

// Layers on one side of a drum set, its hands or its feet, share a voice; rolls, which
// are tied, and pulses that divide the beat otherwise have voices of their own.
func TestSidesShareAVoice(t *testing.T) {
	const hat, snare, kick = "groups: 4+4, pitches: closed hi-hat", "groups: 3+3+2, pitches: snare", "groups: 8, pitches: kick"
	for _, c := range []struct {
		layers []string
		want   []string
	}{
		{[]string{hat, kick, snare}, []string{"1.1 L1+L3 up", "1.2 L2 down"}},
		{[]string{hat, "groups: 4+4, pitches: snare, touches: roll"}, []string{"1.1 L1 up", "1.2 L2 up"}},
		{[]string{hat, "pulse: 1/8 in 3:2, groups: 3+3, pitches: snare"}, []string{"1.1 L1 up", "1.2 L2 up"}},
		{[]string{"pulse: 1/8 in 3:2, groups: 3+3, pitches: closed hi-hat", "pulse: 1/8 in 3:2, groups: 2+4, pitches: snare"}, []string{"1.1 L1+L2 up"}},
		{[]string{kick}, []string{"1.1 L1 down"}},
	} {
		p, _, problems := winch(t, "drum set", c.layers...)
		assert.Empty(t, problems)
		assert.Equal(t, c.want, shown(p), c.layers)
	}
	p, _, _ := winch(t, "drum set", hat, kick, snare)
	assert.Equal(t, []string{"L1", "L3", "L2"}, p.Layers(), "voice by voice")
	assert.Equal(t, []int{1, 1, 0}, []int{p.StaffOf("L2"), p.StaffOf("L3"), p.StaffOf("L4")})
	assert.False(t, p.Pitched)
	p, _, _ = winch(t, "piano", "groups: 4+4, pitches: B3")
	assert.Equal(t, []string{"L1"}, p.Layers(), "the voice of rests above has none")
}

// A fifth voice has no number on a staff.
func TestFourVoicesAreTheMost(t *testing.T) {
	const layer = "groups: 4+4, pitches: E4"
	_, _, problems := winch(t, "marimba", layer, layer, layer, layer)
	assert.Empty(t, problems)
	_, p, problems := winch(t, "marimba", layer, layer, layer, layer, layer)
	require.Len(t, problems, 1)
	assert.Equal(t, `player "Winch" has more than four layers on one staff`, problems[0].Text)
	assert.Equal(t, p.Sections[0].Layers[0].Pos, problems[0].Pos)
}

// The second layer of a staff has its words below the verses of the first; those of the
// other staff begin anew.
func TestLyricLines(t *testing.T) {
	p, piece, _ := winch(t, "piano", "groups: 4+4, pitches: E5, lyrics: [low tide, high tide]", "groups: 4+4, pitches: C5, lyrics: mud",
		"groups: 4+4, pitches: C3, lyrics: deep", "groups: 4+4, pitches: A2")
	assert.Equal(t, map[string]int{"L1": 0, "L2": 2, "L3": 0, "L4": 1}, p.LyricLines(piece, piece.Players()[0]))
}

// B4 is on the middle line in treble clef, D3 in bass clef: C4 is six steps below and
// six above.
func TestDistance(t *testing.T) {
	for c, want := range map[instrument.Clef]int{{Sign: 'G', Line: 2}: 6, {Sign: 'F', Line: 4}: 6, {Sign: 'C', Line: 3}: 0} {
		assert.Equal(t, want, staves.Distance(c, sheet.Steps('C', 4)), c)
	}
}

// The median of C4 D4 G5 A5 is the upper of the two in the middle, as it is written: a
// B flat clarinet reads G5 as A5.
func TestMedianPlace(t *testing.T) {
	_, p, _ := winch(t, "clarinet", "groups: 4+4, pitches: A5 C4 D4 G5")
	l := p.Sections[0].Layers[0]
	place, ok := staves.MedianPlace(bar.NewTransposer(l.Instrument, false), l)
	assert.True(t, ok)
	assert.Equal(t, sheet.Steps('A', 5), place)
	place, _ = staves.MedianPlace(bar.NewTransposer(l.Instrument, true), l)
	assert.Equal(t, sheet.Steps('G', 5), place, "at sounding pitch")
	_, p, _ = winch(t, "flute", "groups: 4+4, pitches: C4, except: [{cycle: 2, pitches: G5 A5}]")
	place, _ = staves.MedianPlace(bar.Transposer{}, p.Sections[0].Layers[0])
	assert.Equal(t, sheet.Steps('G', 5), place, "of C4 G5 A5")
	_, ok = staves.MedianPlace(bar.Transposer{}, &score.Layer{})
	assert.False(t, ok)
}

// More than two ledger lines off: in treble clef D3, twelve steps below the middle line,
// takes a marimba to the bass clef; B3, seven below it, does not.
func TestClefOfAMarimba(t *testing.T) {
	for pitch, want := range map[string]string{"D3": "F", "B3": "G", "A3": "G", "G3": "F"} {
		p, _, _ := winch(t, "marimba", "groups: 4+4, pitches: "+pitch)
		assert.Equal(t, want, signs(p), pitch)
	}
}

// A composite of a piano is on the one of its staves where its pitches are.
func TestForLayer(t *testing.T) {
	for pitch, want := range map[string]string{"E5": "G", "E3": "F"} {
		_, p, _ := winch(t, "piano", "groups: 4+4, pitches: "+pitch)
		l := p.Sections[0].Layers[0]
		plan := staves.ForLayer(l, l.Instrument, bar.Transposer{})
		assert.Equal(t, want, signs(plan))
		assert.Equal(t, []string{"1.1 L1"}, shown(plan))
	}
}
