package main

import (
	"bytes"
	"os"
	"path/filepath"
	"sort"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/cmd/tieover/files"
	"tieover/layout"
	"tieover/layout/sheet"
)

const sections = "../../testdata/sections"

// pieces returns the specs of every testdata piece, by name of its folder.
func pieces(t *testing.T) map[string][]string {
	dirs, err := os.ReadDir(sections)
	require.NoError(t, err)
	all := map[string][]string{}
	for _, d := range dirs {
		specs, err := filepath.Glob(filepath.Join(sections, d.Name(), "*.yaml"))
		require.NoError(t, err)
		require.NotEmpty(t, specs, "%s holds no spec", d.Name())
		sort.Strings(specs)
		all[d.Name()] = specs
	}
	return all
}

// kept are the outputs that are frozen as goldens, beside sheet.txt.
var kept = []string{"score.musicxml", "chart.txt", "report.txt"}

// TestGoldens builds every testdata piece twice: the bytes are the same, and
// those that are kept are as they were read and accepted.
func TestGoldens(t *testing.T) {
	for name, specs := range pieces(t) {
		t.Run(name, func(t *testing.T) {
			first, second := buildInto(t, specs), buildInto(t, specs)
			assert.Equal(t, first, second, "same spec, same bytes")
			want := filepath.Join(sections, name, "want")
			golden(t, filepath.Join(want, "sheet.txt"), sheetText(t, specs))
			for _, file := range kept {
				golden(t, filepath.Join(want, file), first[file])
			}
			entries, err := os.ReadDir(want)
			require.NoError(t, err)
			for _, e := range entries {
				assert.Contains(t, append(kept, "sheet.txt"), e.Name(), "no test reads this file")
			}
		})
	}
}

// buildInto builds the specs with the given flags and returns all files.
func buildInto(t *testing.T, specs []string, flags ...string) map[string]string {
	t.Helper()
	dir := t.TempDir()
	args := append([]string{"build", "-o", dir}, flags...)
	var out, messages bytes.Buffer
	code := run(append(args, specs...), streams{strings.NewReader(""), &out, &messages})
	require.Zero(t, code, "%s", messages.String())
	return filesIn(t, dir)
}

// filesIn reads what is in a folder and those below, but for the manifest.
func filesIn(t *testing.T, dir string) map[string]string {
	found := map[string]string{}
	err := filepath.WalkDir(dir, func(path string, d os.DirEntry, err error) error {
		if err != nil || d.IsDir() || d.Name() == files.ManifestName {
			return err
		}
		text, err := os.ReadFile(path)
		name, _ := filepath.Rel(dir, path)
		found[filepath.ToSlash(name)] = string(text)
		return err
	})
	require.NoError(t, err)
	return found
}

func sheetText(t *testing.T, specs []string) string {
	p, err := load(streams{err: &bytes.Buffer{}}, specs)
	require.NoError(t, err)
	laid, problems := layout.Lay(p, layout.Options{})
	require.Empty(t, problems)
	return sheet.Dump(laid)
}

func golden(t *testing.T, path, got string) {
	t.Helper()
	if *update {
		require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
		require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
		return
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err, "accept new goldens with -update, then read them")
	assert.Equal(t, string(want), got, "%s", path)
}
