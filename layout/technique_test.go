package layout

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/layout/edit"
	"tieover/layout/sheet"
)

const plucked = `title: Mooring
meter: 4/4
length: 4 bars
layers:
  - {name: Flute, instrument: flute, groups: 4+4, pitches: C5 D5}
  - {name: Cello, instrument: cello, groups: 4+4, pitches: C3 D3}
plan:
  - {at: bar 1, text: pizz., for: Cello}
  - {at: bar 3, text: arco, for: Cello}
  - {at: bar 4, text: pizz., for: Flute}
`

// techniquesOf lists a part's techniques with bar and staff; what is no more than
// words with an exclamation mark.
func techniquesOf(p *sheet.Part) []string {
	var all []string
	for b := range p.Bars() {
		for _, m := range b.Marks {
			if m.Kind == sheet.TechniqueMark || m.Kind == sheet.Words {
				text := string(rune('0'+b.Number)) + " " + m.Text
				if m.Kind == sheet.Words {
					text += "!"
				}
				all = append(all, text)
			}
		}
	}
	return all
}

// A cello plays pizz. from bar 1, arco from bar 3: bars 2 to 3 begin "(pizz.)",
// bars 3 to 4 with the plan's own arco, and no other part shows either (by hand).
// A flute knows no pizz.: to it that is just words.
func TestTechniques(t *testing.T) {
	whole := laid(t, Options{}, plucked)
	assert.Equal(t, []string{"4 pizz.!"}, techniquesOf(&whole.Parts[0]))
	assert.Equal(t, []string{"1 pizz.", "3 arco"}, techniquesOf(&whole.Parts[1]))
	for from, want := range map[int][]string{2: {"2 (pizz.)", "3 arco"}, 3: {"3 arco"}} {
		cut, problems := edit.Excerpt(whole, from, 3, nil)
		require.NoError(t, problems.Err())
		assert.Equal(t, want, techniquesOf(&cut.Parts[1]))
		assert.Empty(t, techniquesOf(&cut.Parts[0]))
	}
	after, problems := edit.Excerpt(whole, 4, 4, nil)
	require.NoError(t, problems.Err())
	assert.Empty(t, techniquesOf(&after.Parts[1]), "arco is the usual way")
}

// Without for, a technique stands over each staff that knows it and nowhere else.
func TestTechniqueForAll(t *testing.T) {
	whole := laid(t, Options{}, `title: Mooring
meter: 4/4
length: 2 bars
layers:
  - {name: Flute, instrument: flute, groups: 4+4, pitches: C5 D5}
  - {name: Viola, instrument: viola, groups: 4+4, pitches: C4 D4}
  - {name: Cello, instrument: cello, groups: 4+4, pitches: C3 D3}
plan: [{at: bar 2, text: Pizz}]
`)
	assert.Empty(t, techniquesOf(&whole.Parts[0]))
	assert.Equal(t, []string{"2 Pizz"}, techniquesOf(&whole.Parts[1]))
	assert.Equal(t, []string{"2 Pizz"}, techniquesOf(&whole.Parts[2]))
}

// A technique ends with its section: where the layer plays on, the words that lead
// back stand, unless the plan says as much; so at a repeat's beginning.
func TestTechniqueEndsWithItsSection(t *testing.T) {
	const first = `title: Mooring
section: A
meter: 4/4
length: 2 bars
layers: [{name: Cello, instrument: cello, groups: 4+4, pitches: C3 D3}]
plan: [{at: bar 2, text: pizz., for: Cello}, {at: bar 2, text: con sord.}]
`
	const second = `section: B
meter: 4/4
length: 1 bar
layers: [{name: Cello, instrument: cello, groups: 4+4, pitches: C3 D3}]
plan: [{at: bar 1, text: senza sord.}]
`
	assert.Equal(t, []string{"2 pizz.", "2 con sord.", "3 arco", "3 senza sord."}, techniquesOf(&laid(t, Options{}, first, second).Parts[0]))
	repeated := "end: repeat\n"
	assert.Equal(t, []string{"1 arco", "1 senza sord.", "2 pizz.", "2 con sord."}, techniquesOf(&laid(t, Options{}, first+repeated).Parts[0]))
}

// What is played in another way is not folded, though the bars are equal.
func TestTechniqueIsNotFolded(t *testing.T) {
	const text = `title: Mooring
meter: 4/4
length: 8 bars
layers:
  - {name: Cello, instrument: cello, groups: 3+3+2, pitches: C3 D3}
  - {name: Viola, instrument: viola, groups: 6+6+4, pitches: C4 D4}
plan:
  - {at: bar 1, text: together}
`
	assert.Equal(t, 4, edit.Fold(laid(t, Options{}, text)).Bars, "bars 3 to 8 are three times the same")
	plucked := text + "  - {at: bar 5, text: pizz., for: Cello}\n"
	assert.Equal(t, 6, edit.Fold(laid(t, Options{}, plucked)).Bars, "bars 3 to 4 are bowed, bars 5 to 8 are not")
}
