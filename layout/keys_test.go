package layout

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/layout/sheet"
)

// From C to A major in bar 3: a clarinet in B flat reads 2 sharps, then 5; a
// double bar stands before the change (PLAYERS' example, by hand).
func TestKeyChange(t *testing.T) {
	const text = `title: Weir
meter: 4/4
length: 4 bars
key: C major
layers:
  - {name: Flute, instrument: flute, groups: 3+3+3, pitches: A4 C#5}
  - {name: Clarinet, instrument: clarinet, groups: 3+3+3, pitches: A4 D#5}
plan:
  - {at: bar 3, key: A major}
`
	laid := laid(t, Options{}, text)
	for i, want := range [][]int{{0, 0, 3, 3}, {2, 2, 5, 5}} {
		var got []int
		var changes []bool
		var lines []sheet.Barline
		for b := range laid.Parts[i].Bars() {
			got = append(got, b.Measure.Key.Fifths)
			changes, lines = append(changes, b.NewKey), append(lines, b.Barline)
		}
		assert.Equal(t, want, got)
		assert.Equal(t, []bool{true, false, true, false}, changes)
		assert.Equal(t, sheet.Double, lines[1])
		assert.Equal(t, sheet.Plain, lines[2])
	}
}

// In bars of a part's own the key changes at the next of them: bars of nine
// eighths begin at 0, 9, 18 eighths, the key changes at 16.
func TestKeyChangeInOwnBars(t *testing.T) {
	const text = `title: Weir
meter: 4/4
length: 4 bars
key: C major
layers:
  - {name: Flute, instrument: flute, groups: 3+3+3, pitches: A4}
  - {name: Oboe, instrument: oboe, groups: 4+4, pitches: A4}
plan:
  - {at: bar 3, key: none}
`
	part, problems := LayPart(read(t, text), Options{Barring: Barring{View: Own}}, 0)
	require.NoError(t, problems.Err())
	var none []bool
	for b := range part.Parts[0].Bars() {
		none = append(none, b.Measure.Key.None)
	}
	assert.Equal(t, []bool{false, false, true, true}, none)
}

// E flat major and C minor have one signature: it is not printed again, neither for a
// section nor where a plan changes the mode. A repeat goes back to what it left.
func TestKeysOfOneSignature(t *testing.T) {
	section := func(key, plan, end string) string {
		return "title: Weir\nmeter: 4/4\nlength: 2 bars\nkey: " + key + "\nend: " + end + "\nlayers:\n  - {name: Flute, instrument: flute, groups: 4+4, pitches: G4}\n" + plan
	}
	printed := func(texts ...string) (bars []bool) {
		for b := range laid(t, Options{}, texts...).Parts[0].Bars() {
			bars = append(bars, b.NewKey)
		}
		return bars
	}
	assert.Equal(t, []bool{true, false, false, false}, printed(section("Eb major", "", "stop"), section("C minor", "", "stop")))
	assert.Equal(t, []bool{true, false, true, false}, printed(section("Eb major", "", "stop"), section("C major", "", "stop")))
	assert.Equal(t, []bool{true, false, true, false}, printed(section("none", "", "stop"), section("C major", "", "stop")), "no key is no signature of none")
	assert.Equal(t, []bool{true, false}, printed(section("Eb major", "plan: [{at: bar 2, key: C minor}]\n", "repeat")))
	assert.Equal(t, []bool{true, false, true, true}, printed(section("3 flats", "", "stop"), section("C minor", "plan: [{at: bar 2, key: A minor}]\n", "repeat")),
		"the repeat comes from no flats")
}
