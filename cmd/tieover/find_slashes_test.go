package main

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const partlySlashed = `title: Lock
meter: 4/4
length: 12 bars
layers:
  - {name: Horn, instrument: flute, groups: 3+3+2, pitches: C5 D5 E5}
  - {name: Bell, instrument: vibraphone, groups: 3+2, pitches: C5 D5, written: rhythm}
  - {name: Rope, instrument: marimba, groups: 3+3+2, pitches: C4 D4 E4, written: slashes}
plan:
  - {at: bar 5, written: slashes, to: bar 7, for: Horn}
  - {at: bar 10, written: slashes, to: bar 11, for: Horn}
`

// Slashes that stand for beats are no rhythm of quarters: their bars are told. A rhythm
// in slashes is one, without pitches.
func TestFindLeavesSlashesOut(t *testing.T) {
	score := builtScore(t, partlySlashed)
	code, out, messages := call(t, newFindCmd, "", score, "--all")
	require.Equal(t, done, code, messages)
	assert.Equal(t, "Horn: bars 5-6, bar 10: slashes, which carry no loop; left out\n"+
		"left out: Rope: bars 1-12: slashes, which carry no loop, and nothing else\n", messages)
	// Bars 5 and 6 are 16 eighths, bar 10 is 8.
	assert.Contains(t, out, "      - {cycle: 4, groups: 3+3+2+rest 16}\n      - {cycle: 7, groups: 3+3+2+rest 8}\n")
	assert.Contains(t, out, "  - name: Bell\n    groups: 3+2\n")
	assert.NotContains(t, out, "Rope")
	for part, want := range map[string]string{"Rope": "Rope: bars 1-12: slashes, which carry no loop, and nothing else", "Horn": ""} {
		code, _, messages := call(t, newFindCmd, "", score, "--part", part, "--bars", "1-4")
		assert.Equal(t, map[bool]int{true: wrongData, false: done}[want != ""], code, messages)
		assert.Contains(t, messages, strings.Replace(want, "12", "4", 1))
	}
}

// Other programs say by the staff's style what is slashes, whatever the heads
// (MusicXML 4.0, measure-style).
func TestFindReadsTheStyleOfSlashes(t *testing.T) {
	score := builtScore(t, strings.Replace(partlySlashed, ", written: slashes}", "}", 1))
	data, err := os.ReadFile(score)
	require.NoError(t, err)
	head, rope, ok := strings.Cut(string(data), `<part id="P3">`)
	require.True(t, ok)
	rope = strings.Replace(rope, "</clef>", "</clef><measure-style><slash type=\"start\"/></measure-style>", 1)
	require.NoError(t, os.WriteFile(score, []byte(head+`<part id="P3">`+rope), 0o600))
	_, _, messages := call(t, newFindCmd, "", score, "--all")
	assert.Contains(t, messages, "left out: Rope: bars 1-12: slashes, which carry no loop, and nothing else\n")
}
