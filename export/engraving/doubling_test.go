package engraving

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/export/engraving/content"
	"tieover/export/engraving/spacing"
	"tieover/layout"
	"tieover/layout/sheet"
	"tieover/score/spec/spectest"
)

const doubled = `title: Weir
meter: 4/4
length: 10 bars
key: D major
tempo: 60
layers:
  - {name: Bars, player: Percussion, instrument: glockenspiel, groups: 4+4, pitches: A6 C#7, leaves: bar 3}
  - {name: Ring, player: Percussion, instrument: triangle, groups: 4+4, enters: bar 5, leaves: bar 7}
  - {name: More, player: Percussion, instrument: glockenspiel, groups: 4+4, pitches: C#7, enters: bar 9}
plan: [{at: bar 4, key: F major}]
`

// partRows are the bars of the first part of a spec as they are drawn.
func partRows(t *testing.T, text string) (*engraver, []content.Row) {
	t.Helper()
	s, problems := layout.LayPart(spectest.Read(t, text), layout.Options{Breaks: layout.BreakNone, Cues: layout.CueNone}, 0)
	require.NoError(t, problems.Err())
	e := newEngraver(s, Options{})
	return e, slices.Collect(e.Rows)
}

// A line before a change of instrument announces the key of what comes, in its clef:
// nothing before a triangle, the one flat of F major before the glockenspiel, whose
// clef changes before the barline (common practice).
func TestDoublingIsAnnounced(t *testing.T) {
	e, rows := partRows(t, doubled)
	at := func(number int) int {
		return slices.IndexFunc(rows, func(r content.Row) bool { return r.Bars[0].Number == number })
	}
	for number, want := range map[int]spacing.KeySigns{4: {Fifths: -1}, 5: {}, 9: {Fifths: -1}} {
		k := at(number)
		require.Positive(t, k)
		l := e.newLine(rows[:k], &rows[k], e.Width)
		assert.Equal(t, want, l.KeyAfter(0), "before bar %d", number)
		clef, turns := l.Turn(k-1, 0)
		assert.Equal(t, number != 4, turns)
		if turns {
			assert.Equal(t, map[int]byte{5: 'P', 9: 'G'}[number], clef.Sign)
		}
	}
	drawn := ""
	for sys := range Systems(e.Sheet, Options{}) {
		drawn += string(sys.Body)
	}
	for _, words := range []string{">Glockenspiel<", ">to Triangle<", ">Triangle<", ">to Glockenspiel<"} {
		assert.Contains(t, drawn, words)
	}
	assert.Equal(t, 2, strings.Count(drawn, ">Glockenspiel<"))
}

// A gathered rest ends with the barline of its last bar: a double one where the key
// changes after it.
func TestGatheredRestHasItsLastBarline(t *testing.T) {
	const text = `title: Weir
meter: 4/4
length: 9 bars
key: C major
layers:
  - {name: Flute, instrument: flute, groups: 4+4, pitches: F#5 C#5, leaves: bar 2}
  - {name: Oboe, instrument: oboe, groups: 4+4, pitches: C5}
plan: [{at: bar 8, key: Eb major}]
`
	_, rows := partRows(t, text)
	var rests []int
	var lines []sheet.Barline
	for _, r := range rows {
		rests, lines = append(rests, r.Rest), append(lines, r.Bars[0].Barline)
	}
	assert.Equal(t, []int{0, 6, 2}, rests, "accidentals of the bar before do not cut it")
	assert.Equal(t, []sheet.Barline{sheet.Plain, sheet.Double, sheet.Final}, lines)
}
