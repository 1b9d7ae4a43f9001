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

func TestListFlag(t *testing.T) {
	for given, want := range map[string][]string{
		"a,b":               {"a", "b"},
		"Marimba, Low Bell": {"Marimba", "Low Bell"},
		`"a, b", c`:         {"a, b", "c"},
		`the "big" one,x`:   {`the "big" one`, "x"},
	} {
		words := []string{"usual"}
		require.NoError(t, (&list{into: &words}).Set(given), given)
		assert.Equal(t, want, words, given)
	}
	for _, wrong := range []string{"", "a\nb"} {
		words := []string{"usual"}
		require.Error(t, (&list{into: &words}).Set(wrong), "%q", wrong)
		assert.Equal(t, []string{"usual"}, words)
	}
	words := []string{"usual"}
	l := &list{into: &words}
	assert.Equal(t, "usual", l.String())
	require.NoError(t, l.Set("a"))
	require.NoError(t, l.Set("b"))
	assert.Equal(t, []string{"a", "b"}, words)
}

// A name on the command line is the spec's, however a shell stores its accents;
// a name with a comma stands in quotation marks, also in --part.
func TestNamesOnTheCommandLine(t *testing.T) {
	const composed, apart = "\u00c9cluse", "E\u0301cluse"
	dir := t.TempDir()
	file := filepath.Join(dir, "s.yaml")
	require.NoError(t, os.WriteFile(file, []byte("title: T\nlength: 2 bars\nlayers:\n  - {name: "+composed+", groups: 3+2}\n  - {name: \"Bell, low\", groups: 4}\n"), 0o644))
	for _, args := range [][]string{
		{"chart", file, "--layers", apart},
		{"chart", file, "--layers", apart + `,"Bell, low"`},
		{"build", file, "-o", filepath.Join(dir, "a"), "--only", "musicxml", "--view", "layer:" + apart, "--partner", apart},
		{"build", file, "-o", filepath.Join(dir, "b"), "--only", "musicxml", "--composite", apart},
		{"verify", file, filepath.Join(dir, "b", "score.musicxml"), "--part", composed + "=" + apart, "--part", `Bell, low="Bell, low"`},
	} {
		var out, messages bytes.Buffer
		assert.Equal(t, done, run(args, streams{strings.NewReader(""), &out, &messages}), "%v: %s", args[2:], messages.String())
	}
}
