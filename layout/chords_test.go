package layout

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/layout/edit"
	"tieover/layout/sheet"
)

// chordsOf lists the chord symbols of a part as they read there.
func chordsOf(p *sheet.Part) []string {
	var all []string
	for b := range p.Bars() {
		for _, m := range b.Marks {
			if m.Kind == sheet.ChordSymbol {
				all = append(all, m.Text)
			}
		}
	}
	return all
}

// Chord symbols are transposed with the part (W3C music notation group, issue
// 474): a clarinet in B flat reads a major second higher, an alto saxophone a
// major sixth, a guitar as it sounds. By hand.
func TestChordSymbolsAreTransposed(t *testing.T) {
	const text = `title: Weir
meter: 4/4
length: 5 bars
layers:
  - {name: Block, instrument: woodblock, groups: 3+3+2}
  - {name: Clarinet, instrument: clarinet, groups: 3+3+2, pitches: C5 D5}
  - {name: Sax, instrument: alto saxophone, groups: 3+3+2, pitches: C4 D4}
  - {name: Guitar, instrument: guitar, groups: 3+3+2, pitches: C4 D4}
plan:
  - {at: bar 1, chord: Eb}
  - {at: bar 2, chord: CMI7}
  - {at: bar 3, chord: C7alt}
  - {at: bar 4, chord: F#m7/E}
  - {at: bar 5, chord: N.C.}
`
	whole := laid(t, Options{}, text)
	assert.Empty(t, chordsOf(&whole.Parts[0]), "a drum reads no chords")
	clarinet := []string{"F", "DMI7", "D7alt", "G#m7/F#", "N.C."}
	assert.Equal(t, clarinet, chordsOf(&whole.Parts[1]), "the first part that reads pitches has them")
	assert.Empty(t, chordsOf(&whole.Parts[2]))
	concert := laid(t, Options{Concert: true}, text)
	sounding := []string{"Eb", "CMI7", "C7alt", "F#m7/E", "N.C."}
	assert.Equal(t, sounding, chordsOf(&concert.Parts[1]))

	p := read(t, text)
	for i, want := range [][]string{nil, clarinet, {"C", "AMI7", "A7alt", "D#m7/C#", "N.C."}, sounding} {
		part, problems := LayPart(p, Options{}, i)
		require.NoError(t, problems.Err())
		assert.Equal(t, want, chordsOf(&part.Parts[0]), "part %d", i)
	}
	cut, problems := edit.Excerpt(whole, 1, 5, []string{"Block", "Sax"})
	require.NoError(t, problems.Err())
	assert.Empty(t, chordsOf(&cut.Parts[0]))
	assert.Equal(t, []string{"C", "AMI7", "A7alt", "D#m7/C#", "N.C."}, chordsOf(&cut.Parts[1]), "the excerpt's first part that reads pitches")
}

// A double sign, E sharp, B sharp, C flat, F flat is written as its neighbor,
// unless the key has it. B sounds as C sharp for a clarinet, A sharp as B sharp,
// which becomes C; B flat for an alto saxophone as G.
func TestChordSymbolsAreRespelt(t *testing.T) {
	const text = "title: Weir\nmeter: 4/4\nlength: 3 bars\nlayers:\n  - {name: Clarinet, instrument: clarinet, groups: 3+3+2, pitches: C5}\n  - {name: Sax, instrument: alto saxophone, groups: 3+3+2, pitches: C4}\n" +
		"plan:\n  - {at: bar 1, chord: A#m}\n  - {at: bar 2, chord: Bb/C}\n  - {at: bar 3, chord: B♭7}\n"
	p := read(t, text)
	for i, want := range [][]string{{"Cm", "C/D", "C7"}, {"Gm", "G/A", "G7"}} {
		part, problems := LayPart(p, Options{}, i)
		require.NoError(t, problems.Err())
		got := chordsOf(&part.Parts[0])
		if i == 1 {
			assert.Equal(t, want[1:], got[1:])
			continue
		}
		assert.Equal(t, want, got)
	}
}
