package layout

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/layout/edit"
	"tieover/layout/sheet"
	"tieover/score/instrument"
)

// clefsOf lists the clef of a part's first staff bar by bar, with a stroke before
// those that are written.
func clefsOf(p *sheet.Part) []string {
	names := map[instrument.Clef]string{}
	for _, name := range instrument.Clefs() {
		names[instrument.ClefOf(name)] = name
	}
	var all []string
	for b := range p.Bars() {
		name := names[p.ClefIn(b.Measure, 1)]
		if b.NewClef {
			name = "/" + name
		}
		all = append(all, name)
	}
	return all
}

const harbour = `title: Weir
meter: 4/4
length: 4 bars
layers:
  - {name: Cello, instrument: cello, groups: 3+3+3, pitches: A3 C4, clef: tenor}
  - {name: Viola, instrument: viola, groups: 4+4, pitches: A4}
`

// A cello that begins in tenor clef, C on line 4, and goes back to bass in bar 3; the
// viola beside it keeps its alto clef.
func TestClefs(t *testing.T) {
	assert.Equal(t, instrument.Clef{Sign: 'C', Line: 4}, instrument.ClefOf("tenor"))
	laid := laid(t, Options{}, harbour+"plan: [{at: bar 3, clef: bass, for: Cello}]\n")
	assert.Equal(t, []string{"tenor", "tenor", "/bass", "bass"}, clefsOf(&laid.Parts[0]))
	assert.Equal(t, []string{"alto", "alto", "alto", "alto"}, clefsOf(&laid.Parts[1]))
	cut, problems := edit.Excerpt(laid, 4, 4, nil)
	require.NoError(t, problems.Err())
	assert.Equal(t, []string{"bass"}, clefsOf(&cut.Parts[0]), "an excerpt begins in the clef in force")
}

// In bars of nine eighths, which begin at 0, 9, 18 and 27 eighths, a clef changes
// at the next barline after bar 3 of the score, which begins at 16.
func TestClefsInOwnBars(t *testing.T) {
	part, problems := LayPart(read(t, harbour+"plan: [{at: bar 3, clef: bass, for: Cello}]\n"), Options{Barring: Barring{View: Own}}, 0)
	require.NoError(t, problems.Err())
	assert.Equal(t, []string{"tenor", "tenor", "/bass", "bass"}, clefsOf(&part.Parts[0]))
}

// A repeat goes back to the clef of its beginning, and a further section without
// one to the instrument's.
func TestClefsAtEdges(t *testing.T) {
	text := harbour + "section: A\nend: repeat\nplan: [{at: bar 3, clef: bass, for: Cello}]\n"
	next := "title: Weir\nsection: B\nmeter: 4/4\nlength: 2 bars\nlayers: [{name: Cello, instrument: cello, groups: 4+4, pitches: A3, clef: treble}]\n"
	last := "section: C\nmeter: 4/4\nlength: 1 bar\nlayers: [{name: Cello, instrument: cello, groups: 4+4, pitches: A3}]\n"
	got := clefsOf(&laid(t, Options{}, next, text, last).Parts[0])
	assert.Equal(t, []string{"treble", "treble", "/tenor", "tenor", "/bass", "bass", "bass"}, got)
	again := clefsOf(&laid(t, Options{}, harbour+"section: A\nend: repeat\nplan: [{at: bar 1, clef: bass, for: Cello}, {at: bar 3, clef: tenor, for: Cello}]\n").Parts[0])
	assert.Equal(t, []string{"bass", "bass", "/tenor", "tenor"}, again)
}

// A period is not folded where the clef changes in it or differs from the pass before.
func TestClefsAreNotFolded(t *testing.T) {
	const text = `title: Weir
meter: 4/4
length: 8 bars
layers:
  - {name: Cello, instrument: cello, groups: 3+3+2, pitches: A3 C4}
  - {name: Viola, instrument: viola, groups: 6+6+4, pitches: A4}
plan: [{at: bar 5, clef: tenor, for: Cello}]
`
	assert.Equal(t, 4, edit.Fold(laid(t, Options{}, text)).Bars, "bars 1 to 4 are one period twice, bars 5 to 8 another")
}
