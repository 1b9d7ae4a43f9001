package main

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A pickup that is read out of a score becomes one in the spec: what begins in it enters
// there, what begins with bar 1 is not late, and the length counts from bar 1.
func TestFindReadsAPickup(t *testing.T) {
	dir := t.TempDir()
	spec, found := filepath.Join(dir, "a.yaml"), filepath.Join(dir, "found.yaml")
	require.NoError(t, os.WriteFile(spec, []byte("title: Ebb\nmeter: 4/4\npickup: 1/4\nlength: 10 bars\nlayers:\n"+
		"  - {name: Oboe, instrument: oboe, line: 'C5 1, D5 1, E5 2, C5 3, rest 1, G5 12'}\n"+
		"  - {name: Viola, instrument: viola, groups: 3+3+2, pitches: C4 D4 E4}\n"+
		"  - {name: Cello, instrument: cello, groups: 3+2, pitches: C3 G3, enters: pickup}\n"), 0o644))
	code, _, problems := typed("build", spec, "-o", filepath.Join(dir, "out"), "--only", "musicxml")
	require.Zero(t, code, problems)
	score := filepath.Join(dir, "out", "score.musicxml")
	code, text, problems := typed("find", score, "--all", "--spec")
	require.Zero(t, code, problems)
	assert.Contains(t, text, "meter: 4/4\npickup: 1/4\npulse: 1/8\nlength: 10 bars\n")
	assert.Contains(t, text, "    groups: 3+3+2\n    pitches: C4 D4 E4\n")
	assert.Contains(t, text, "    groups: 3+2\n    enters: pickup\n    pitches: C3 G3\n")
	require.NoError(t, os.WriteFile(found, []byte(text), 0o644))
	code, said, problems := typed("verify", found, score)
	assert.Zero(t, code, said+problems)

	code, said, _ = typed("verify", spec, score)
	assert.Zero(t, code, said)
}
