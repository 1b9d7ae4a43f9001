package main

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// readmeDrawings are the systems that README shows: files under testdata/readme,
// the piece each is drawn from, and the flags.
var readmeDrawings = []struct {
	file, piece string
	flags       []string
}{
	{"lock-keepers-round.svg", "lock-keepers-round", nil},
	{"quintuplet-rain.svg", "quintuplet-rain", []string{"--breaks", "none", "--staff-height", "5.5"}},
}

// TestReadmeDrawings builds the drawings of README again: they are what the
// program draws.
func TestReadmeDrawings(t *testing.T) {
	readme, err := os.ReadFile("../../README.md")
	require.NoError(t, err)
	for _, d := range readmeDrawings {
		spec := filepath.Join(sections, d.piece, "section.yaml")
		made := buildInto(t, []string{spec}, append(d.flags, "--only", "figures")...)
		golden(t, "../../testdata/readme/"+d.file, made["figures/notation-1.svg"])
		assert.Contains(t, string(readme), "](testdata/readme/"+d.file+")")
	}
}
