package layout

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/layout/sheet"
)

// told lists a part's texts and chord symbols with bar and staff.
func told(p *sheet.Part) []string {
	var all []string
	for b := range p.Bars() {
		for _, m := range b.Marks {
			if m.Kind == sheet.ChordSymbol || m.Kind == sheet.Words {
				all = append(all, string(rune('0'+b.Number))+string(rune('a'+b.Measure.Voices[m.Voice].Staff-1))+" "+m.Text)
			}
		}
	}
	return all
}

// What is for some stands over their staves, and in their parts only; what is
// for all over the top staff and in every part (by hand).
func TestSignsForSome(t *testing.T) {
	const text = `title: Weir
meter: 4/4
length: 4 bars
layers:
  - {name: Block, instrument: woodblock, groups: 4+4}
  - {name: Clarinet, instrument: clarinet, groups: 4+4, pitches: C5 D5}
  - {name: Over, player: Keys, instrument: piano, groups: 4+4, pitches: C5}
  - {name: Under, player: Keys, instrument: piano, groups: 4+4, pitches: C3}
plan:
  - {at: bar 1, text: together}
  - {at: bar 1, text: apart, chord: Eb, for: [Clarinet, Block]}
  - {at: Clarinet cycle 2, text: breathe}
  - {at: Clarinet cycle 2, text: look, for: all}
  - {at: bar 3, text: pedal, for: Keys}
  - {at: bar 4, text: low, chord: C, for: Under}
`
	whole := laid(t, Options{}, text)
	want := [][]string{
		{"1a together", "1a apart", "2a look"},
		{"1a apart", "1a F", "2a breathe"},
		{"3a pedal", "3b pedal", "4b low", "4b C"},
	}
	for i := range want {
		assert.Equal(t, want[i], told(&whole.Parts[i]), "score, part %d", i)
	}
	want[1] = []string{"1a together", "1a apart", "1a F", "2a look", "2a breathe"}
	want[2] = []string{"1a together", "2a look", "3a pedal", "3b pedal", "4b low", "4b C"}
	for i := range want {
		part, problems := LayPart(read(t, text), Options{}, i)
		require.NoError(t, problems.Err())
		assert.Equal(t, want[i], told(&part.Parts[0]), "part %d", i)
	}
}
