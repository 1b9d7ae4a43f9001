package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A guitar that is slashes in bars 2 and 3, a rhythm in bar 4, and notes again; a
// flute beside it.
const slashedSpec = `title: Sluice
meter: 4/4
tempo: 90
length: 6 bars
layers:
  - {name: Guitar, instrument: guitar, groups: 3+5, pitches: E3+B3 G3}
  - {name: Flute, instrument: flute, groups: 6+5, pitches: E5 G5}
plan:
  - {at: bar 2, for: Guitar, written: slashes, to: bar 4}
  - {at: bar 4, for: Guitar, written: rhythm, to: bar 5}
`

// What is slashes is not compared, of a rhythm only the onsets; the rest is.
func TestVerifySlashes(t *testing.T) {
	title := replace("Sluice</movement-title>", "Sluices</movement-title>")
	code, out := edited(t, slashedSpec, title)
	assert.Zero(t, code, out)
	assert.Contains(t, out, "(Guitar bars 2-3 are slashes and not compared)\n")
	assert.Contains(t, out, "(Guitar bar 4 is a rhythm, of which only the onsets are compared)\n")
	assert.Contains(t, out, "The same music: Guitar, Flute")

	// the second slash of the rhythm becomes a rest; a slash of bar 2 does; a note of bar 1 moves up
	code, out = edited(t, slashedSpec, slashed(t, 4, 1))
	assert.Equal(t, differs, code)
	assert.Contains(t, out, "bar 4 beat 2")
	code, out = edited(t, slashedSpec, slashed(t, 2, 1))
	assert.Zero(t, code, out)
	code, out = edited(t, slashedSpec, replace("<step>B</step>", "<step>C</step>"))
	assert.Equal(t, differs, code)
	assert.Contains(t, out, "bar 1 beat 1")
}

// Slashes of bars that are played again are told once.
func TestVerifySlashesOfARepeat(t *testing.T) {
	title := replace("Sluice</movement-title>", "Sluices</movement-title>")
	code, out := edited(t, strings.Replace(slashedSpec, "layers:", "end: repeat 3\nlayers:", 1), title)
	assert.Zero(t, code, out)
	assert.Equal(t, 1, strings.Count(out, "(Guitar bars 2-3 are slashes and not compared)\n"), out)
}

// In bars that are a layer's cycles each bar is written as at its beginning: of bars of
// 6 eighths those are a rhythm that begin after 12 and 18. The cello's sound that is held
// from notes into the first of them ends there, and no tie is left on either side.
func TestVerifyWrittenInBarsOfALayer(t *testing.T) {
	dir := t.TempDir()
	path, out := filepath.Join(dir, "spec.yaml"), filepath.Join(dir, "out")
	require.NoError(t, os.WriteFile(path, []byte(`title: A
meter: 4/4
length: 9 bars
layers:
  - {name: Claves, instrument: claves, groups: 1+4 + rest 1}
  - {name: Bell, instrument: cowbell, groups: 3+2}
  - {name: Cello, instrument: cello, pitches: C3, groups: "5"}
plan:
  - {at: bar 2, written: rhythm, to: bar 4}
`), 0o600))
	code, _, messages := call(t, newBuildCmd, "", path, "-o", out, "--view", "layer:Claves")
	require.Equal(t, done, code, messages)
	code, lines, messages := call(t, newVerifyCmd, "", path, filepath.Join(out, "score.musicxml"))
	assert.Equal(t, done, code, messages)
	assert.Contains(t, lines, "(Bell bars (3)-(4) are a rhythm, of which only the onsets are compared)\n")
	assert.Contains(t, lines, "The same music: Claves, Bell, Cello, ")
}

// slashed makes a rest of slash k (from 0) of a bar.
func slashed(t *testing.T, bar, k int) func(string) string {
	return func(text string) string {
		at := strings.Index(text, fmt.Sprintf(`<measure number="%d"`, bar))
		for range k + 1 {
			at += 1 + strings.Index(text[at+1:], "<unpitched>")
		}
		head, note := text[:at], text[at:]
		_, note, _ = strings.Cut(note, "</unpitched>")
		before, after, ok := strings.Cut(note, "<notehead>slash</notehead>")
		require.True(t, ok)
		return head + "<rest/>" + before + after
	}
}
