package main

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What is found only when the music is laid out is shown with its line too.
func TestProblemsOfLayoutShowTheirLine(t *testing.T) {
	path := filepath.Join(t.TempDir(), "spec.yaml")
	require.NoError(t, os.WriteFile(path, []byte(`title: Weir
meter: 4/4
length: 4 bars
layers:
  - {name: Bass, player: Reed, instrument: guitar, groups: 5+5, tab: yes, pitches: D3 A2}
  - {name: Melody, player: Reed, instrument: guitar, groups: 8, offset: 4, pitches: E3}
`), 0o600))
	code, _, messages := call(t, newBuildCmd, "", path, "-o", filepath.Join(t.TempDir(), "out"))
	assert.Equal(t, wrongData, code)
	assert.Equal(t, path+`:6:5: bar 1 beat 3: Melody strikes E3 on string 4, where Bass still holds D3; `+
		`shorten it with strike: short, change an octave, give them two players, or remove tab
      - {name: Melody, player: Reed, instrument: guitar, groups: 8, offset: 4, pitches: E3}
        ^
`, messages)
}
