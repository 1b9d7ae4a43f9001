package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// findText runs find and returns what it wrote.
func findText(t *testing.T, stdin string, args ...string) string {
	t.Helper()
	code, out, messages := call(t, newFindCmd, stdin, args...)
	require.Zero(t, code, messages)
	return out
}

// A whole spec is made from a score, a score from that spec, and the first
// score sounds like the second spec.
func TestFindAllGivesTheSameMusic(t *testing.T) {
	for _, spec := range sectionSpecs(t) {
		source, err := os.ReadFile(spec)
		require.NoError(t, err)
		if strings.Contains(string(source), "written:") {
			continue // what stands as slashes is not in the score
		}
		for _, flags := range [][]string{nil, {"--spelling", "meter"}} {
			name := filepath.Base(filepath.Dir(spec))
			t.Run(name+strings.Join(flags, " "), func(t *testing.T) {
				score := filepath.Join(built(t, spec, flags...), "score.musicxml")
				text := findText(t, "", score, "--all")
				second := filepath.Join(t.TempDir(), "found.yaml")
				require.NoError(t, os.WriteFile(second, []byte(text), 0o600))
				again := filepath.Join(built(t, second), "score.musicxml")
				if name != "boat-song" && name != "ebb-tide" { // they have free lines, one a loop with a bar of rest
					assert.NotContains(t, text, "line:", "a pattern was missed")
				}
				for _, s := range []string{score, again} {
					code, out, messages := call(t, newVerifyCmd, "", second, s)
					out = withoutMarks(out)
					assert.Empty(t, out, "%s%s\n%s", messages, text, filepath.Base(s))
					assert.Contains(t, []int{done, differs}, code)
				}
			})
		}
	}
}

// withoutMarks keeps the differences that are not about labels, as the found spec has
// no section name, so that its labels are others, nor about grace notes, which are no
// attacks.
func withoutMarks(out string) string {
	var kept []string
	for _, line := range strings.Split(out, "\n") {
		if line != "" && !strings.Contains(line, "the mark ") && !strings.HasPrefix(line, "The same") && !strings.Contains(line, "compared:") && !strings.Contains(line, "grace notes left out") {
			kept = append(kept, line)
		}
	}
	return strings.Join(kept, "\n")
}
