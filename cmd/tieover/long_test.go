package main

import (
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// By hand: 63 and 64 eighths meet after 4,032, which in bars of one eighth are as
// many; that is not told, but two returns, twice that, are. What is asked for in bars is not.
func TestLongPiecesAreTold(t *testing.T) {
	spec := filepath.Join(t.TempDir(), "s.yaml")
	said := func(length, a string) string {
		put(t, spec, "title: T\nmeter: 1/8\ntempo: 60\nlength: "+length+"\nlayers:\n  - {name: A, groups: "+a+"}\n  - {name: B, groups: 64}\n")
		code, messages := at("chart", spec, "--bars", "1")
		require.Zero(t, code, messages)
		return messages
	}
	assert.Equal(t, "note: section 1 became 8064 bars long (length: 2 returns)\n", said("2 returns", "63"))
	assert.Empty(t, said("1 realignment", "63"))
	assert.Empty(t, said("8064 bars", "63"))
}

// A cycle of a thousand pulses under a name of one letter.
func TestWorksheetOfALongCycle(t *testing.T) {
	spec := filepath.Join(t.TempDir(), "s.yaml")
	put(t, spec, "title: T\nmeter: 4/4\ntempo: 60\nlength: 200 bars\nlayers:\n  - {name: a, groups: 1000}\n  - {name: b, groups: 3+2}\n")
	for _, level := range []string{"1", "2", "3"} {
		code, messages := at("worksheet", spec, "-o", t.TempDir(), "--level", level)
		assert.Zero(t, code, messages)
	}
}
