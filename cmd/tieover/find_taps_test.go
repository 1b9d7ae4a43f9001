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

// The README's way of a transcriber is gone as it stands there: taps of two parts,
// a spec, a score, and the score is the spec's music. testdata/taps has a rake at 3+2+2
// and a scythe at 3+3+2+2 that begins four eighths later; its fifth cycle has a
// last group of three. Both are 14 ms off by chance and slow down a little.
func TestTranscribersWay(t *testing.T) {
	root, err := filepath.Abs("../..")
	require.NoError(t, err)
	readme, err := os.ReadFile(filepath.Join(root, "README.md"))
	require.NoError(t, err)
	_, way, ok := strings.Cut(string(readme), "**Transcribing.**")
	require.True(t, ok)
	way, _, _ = strings.Cut(way, "\n## ")
	t.Chdir(t.TempDir())
	for _, name := range []string{"rake.txt", "scythe.txt"} {
		data, err := os.ReadFile(filepath.Join(root, "testdata/taps", name))
		require.NoError(t, err)
		require.NoError(t, os.WriteFile(name, data, 0o600))
	}
	steps := 0
	for _, line := range strings.Split(way, "\n") {
		command, ok := strings.CutPrefix(line, "    tieover ")
		if !ok {
			continue
		}
		steps++
		command, _, _ = strings.Cut(command, " #")
		command, into, _ := strings.Cut(command, " > ")
		var out, messages bytes.Buffer
		code := run(strings.Fields(command), streams{strings.NewReader(""), &out, &messages})
		require.Equal(t, done, code, "%s: %s", command, messages.String())
		if into != "" {
			require.NoError(t, os.WriteFile(into, out.Bytes(), 0o600))
		}
		if strings.HasPrefix(command, "verify") {
			assert.Contains(t, out.String(), "The same music")
		}
	}
	assert.Equal(t, 3, steps)
	spec, err := os.ReadFile("loop.yaml")
	require.NoError(t, err)
	for _, want := range []string{"  - name: rake\n    groups: 3+2+2\n", "  - name: scythe\n    groups: 3+3+2+2\n    offset: 4\n", "{cycle: 5, groups: 3+3+2+3}"} {
		assert.Contains(t, string(spec), want)
	}
}

// A line of numbers that no loop shortens names the one that comes nearest, and the
// flag that takes it. The third of six 3+2+2 is 3+3+2: kind 3, word 15, 18 attacks 9,
// where log2 18 = 4.2, one exception 3, longer by one 4: 38.2. Bare: 3, sizes 9, 17
// values 9 and a bit each: 38.
func TestFindNamesTheNearest(t *testing.T) {
	list := "3 2 2 3 2 2 3 3 2 3 2 2 3 2 2 3 2 2"
	assert.Equal(t, "Line: 18 attacks in 43 eighths\nno pattern: 18 values as they stand (39.0 bits)\n"+
		"nearest: 3+2+2 (7 pulses), 6 times, 1 exception; saves nothing\n"+
		"    but cycle 3: 3+3+2 instead (group 2 a pulse longer)\n    --tolerance 1 takes it\n", findText(t, list))
	assert.Equal(t, "Line: 18 attacks in 43 eighths\n 1. 3+2+2 (7 pulses), 6 times, 1 exception\n"+
		"    38.2 bits, saves nothing: weak\n    but cycle 3, at bar 4 beat 2: 3+3+2 instead (group 2 a pulse longer)\n",
		findText(t, list, "--tolerance", "1", "--meter", "2/4"))
	assert.NotContains(t, findText(t, list, "--tolerance", "0"), " 1. ")
}

// Two files of one name, and one whose name a spec has a use for: each layer gets a name of
// its own that a spec may have.
func TestFindNamesTapFiles(t *testing.T) {
	root, err := filepath.Abs("../..")
	require.NoError(t, err)
	taps, err := os.ReadFile(filepath.Join(root, "testdata/taps", "rake.txt"))
	require.NoError(t, err)
	t.Chdir(t.TempDir())
	require.NoError(t, os.Mkdir("again", 0o700))
	args := []string{"find", "--spec"}
	for _, name := range []string{"barline.txt", "rake.txt", "again/rake.txt"} {
		require.NoError(t, os.WriteFile(name, taps, 0o600))
		args = append(args, "--onsets", name)
	}
	var out, messages bytes.Buffer
	require.Equal(t, done, run(args, streams{strings.NewReader(""), &out, &messages}), messages.String())
	for _, want := range []string{"  - name: barline (2)\n", "  - name: rake\n", "  - name: rake (2)\n"} {
		assert.Contains(t, out.String(), want)
	}
}
