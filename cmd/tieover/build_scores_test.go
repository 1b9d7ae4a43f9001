package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// builtRound runs build on the two keepers' round and returns its exit code, its
// messages and the folder.
func builtRound(t *testing.T, args ...string) (code int, messages, dir string) {
	t.Helper()
	dir = filepath.Join(t.TempDir(), "out")
	var out, said bytes.Buffer
	spec := filepath.Join("..", "..", "testdata", "sections", "lock-keepers-round", "section.yaml")
	code = run(append([]string{"build", spec, "-o", dir, "--only", "musicxml"}, args...), streams{strings.NewReader(""), &out, &said})
	return code, said.String(), dir
}

// What is asked for and cannot be is an error, said once however many parts it
// concerns.
func TestBuildRefusesOnce(t *testing.T) {
	for flags, want := range map[string]string{
		"--view layer:Nobody":            `no section has a layer "Nobody" whose cycles could be the bars`,
		"--partner Nobody":               `no section has a layer "Nobody" that could be the partner`,
		"--composite Nobody":             `no section has a layer "Nobody" for the composite`,
		"--composite-instrument nothing": `unknown instrument "nothing"`,
		"--compare own":                  "a score has the same bars for everybody",
	} {
		code, messages, dir := builtRound(t, strings.Fields(flags)...)
		assert.Equal(t, wrongData, code, flags)
		assert.Equal(t, 1, strings.Count(messages, want), "%s: %s", flags, messages)
		assert.NoDirExists(t, dir, flags)
	}
}

// Score, parts and composite repeat the same bars: six of twelve are written.
func TestFoldedPartsHaveTheScoresBars(t *testing.T) {
	code, messages, dir := builtRound(t, "--fold")
	require.Equal(t, done, code, messages)
	for _, name := range []string{"score", "parts/marimba", "parts/vibraphone", "composite"} {
		text, err := os.ReadFile(filepath.Join(dir, filepath.FromSlash(name)+".musicxml"))
		require.NoError(t, err)
		parts := strings.Count(string(text), "<part id=")
		assert.Equal(t, 6*parts, strings.Count(string(text), "<measure "), name)
		assert.Equal(t, parts, strings.Count(string(text), `<repeat direction="backward"`), name)
		assert.Equal(t, 1, strings.Count(string(text), ">B–B1<"), name)
		assert.NotContains(t, string(text), ">B2<", name)
	}
}

// Bars 11 and 12 of the score are 100 to 120 eighths in: the ninth and tenth of
// the vibraphone's own bars of twelve.
func TestExcerptOfOwnBarsCoversTheSameTime(t *testing.T) {
	code, messages, dir := builtRound(t, "--view", "own", "--bars", "11-12")
	require.Equal(t, done, code, messages)
	text, err := os.ReadFile(filepath.Join(dir, "parts", "vibraphone.musicxml"))
	require.NoError(t, err)
	assert.Equal(t, 2, strings.Count(string(text), "<measure "))
	assert.Contains(t, string(text), `<measure number="9"`)
	assert.Contains(t, string(text), `<measure number="10"`)
}

// What a composite for a transposing instrument respells is told, if it was asked for.
func TestCompositeTellsItsRespellings(t *testing.T) {
	spec := filepath.Join(t.TempDir(), "weir.yaml")
	require.NoError(t, os.WriteFile(spec, []byte("title: Weir\nmeter: 4/4\nlength: 1 bars\nlayers:\n  - {name: A, instrument: flute, groups: 4+4, pitches: D#5 F5}\n"), 0o644))
	var out, said bytes.Buffer
	code := run([]string{"build", spec, "-o", filepath.Join(t.TempDir(), "out"), "--only", "musicxml", "--composite-instrument", "clarinet"}, streams{strings.NewReader(""), &out, &said})
	require.Equal(t, done, code, said.String())
	assert.Contains(t, said.String(), "sounding D#5 is written F5 instead of E#5")
}
