package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/spf13/cobra"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/cmd/tieover/files"
)

// call runs one command as the program would and returns its exit code and
// both streams.
func call(t *testing.T, make func(streams) *cobra.Command, stdin string, args ...string) (code int, out, messages string) {
	t.Helper()
	var o, e bytes.Buffer
	s := streams{strings.NewReader(stdin), &o, &e}
	cmd := make(s)
	cmd.SetArgs(append([]string{}, args...)) // nil would mean those of the test
	cmd.SetOut(&o)
	cmd.SetErr(&e)
	cmd.SilenceErrors, cmd.SilenceUsage = true, true
	code = finish(s, cmd.Execute())
	return code, o.String(), e.String()
}

// built writes everything of a spec into a folder of its own.
func built(t *testing.T, spec string, flags ...string) string {
	t.Helper()
	dir := t.TempDir()
	code, _, messages := call(t, newBuildCmd, "", append([]string{spec, "-o", dir, "--only", "musicxml"}, flags...)...)
	require.Zero(t, code, messages)
	return dir
}

func sectionSpecs(t *testing.T) []string {
	t.Helper()
	specs, err := filepath.Glob("../../testdata/sections/*/section.yaml")
	require.NoError(t, err)
	require.NotEmpty(t, specs)
	return specs
}

// What is written from a spec sounds like the spec, in every barring view and
// spelling, as a score and as parts, plain and compressed.
func TestVerifyAcceptsWhatWasBuilt(t *testing.T) {
	if testing.Short() {
		t.Skip("long, and does nothing that others do not do as well where races are watched")
	}
	for _, spec := range sectionSpecs(t) {
		for _, flags := range [][]string{nil, {"--compressed"}, {"--view", "own"}, {"--spelling", "meter"}} {
			t.Run(filepath.Base(filepath.Dir(spec))+strings.Join(flags, " "), func(t *testing.T) {
				dir := built(t, spec, flags...)
				found := 0
				require.NoError(t, filepath.WalkDir(dir, func(path string, d os.DirEntry, err error) error {
					require.NoError(t, err)
					if d.IsDir() || d.Name() == files.ManifestName {
						return nil
					}
					found++
					code, out, messages := call(t, newVerifyCmd, "", spec, path)
					assert.Zero(t, code, "%s\n%s%s", filepath.Base(path), out, messages)
					return nil
				}))
				assert.Greater(t, found, 1)
			})
		}
	}
}

func TestVerifyRefusesWrongUse(t *testing.T) {
	code, _, messages := call(t, newVerifyCmd, "", "--part", "Bell", "a.yaml", "b.musicxml")
	assert.Equal(t, wrongUse, code)
	assert.Contains(t, messages, "--part Bell")
	code, _, messages = call(t, newVerifyCmd, "not a score", "../../testdata/sections/towpath/section.yaml", "-")
	assert.Equal(t, wrongData, code)
	assert.Contains(t, messages, "XML")
	code, _, messages = call(t, newVerifyCmd, "MThd\x00\x00\x00\x06", "../../testdata/sections/towpath/section.yaml", "-")
	assert.Equal(t, wrongData, code)
	assert.Contains(t, messages, "a MIDI file, which has no notation")
}

// A folded score has one box for all passes of a period, "B–B1": each pass is
// labeled by it. A box that names another last pass labels none of them.
func TestVerifyFolded(t *testing.T) {
	spec, dir := "../../testdata/sections/lock-keepers-round/section.yaml", t.TempDir()
	code, _, messages := call(t, newBuildCmd, "", spec, "-o", dir, "--only", "musicxml", "--fold")
	require.Zero(t, code, messages)
	score := filepath.Join(dir, "score.musicxml")
	code, out, messages := call(t, newVerifyCmd, "", spec, score)
	assert.Equal(t, done, code, out+messages)

	text, err := os.ReadFile(score)
	require.NoError(t, err)
	require.Contains(t, string(text), ">B–B1<")
	require.NoError(t, os.WriteFile(score, []byte(strings.ReplaceAll(string(text), ">B–B1<", ">B–B7<")), 0o600))
	code, out, _ = call(t, newVerifyCmd, "", spec, score)
	assert.Equal(t, differs, code)
	assert.Contains(t, out, "bar 1 (time 2) beat 1: the mark B1 is missing")
}
