package main

import (
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"

	"tieover/score"
	"tieover/score/instrument"
)

// Names that Windows keeps for devices, or that it or macOS takes for one
// another, become other names (Windows: "Naming Files, Paths, and Namespaces",
// from memory).
func TestFileNames(t *testing.T) {
	for _, c := range []struct{ players, want []string }{
		{[]string{"Con", "NUL", "com1", "LPT9", "com10", "Con amore"}, []string{"layer-1", "layer-2", "layer-3", "layer-4", "com10", "con-amore"}},
		{[]string{"Lock", "lock!", "LOCK?"}, []string{"lock", "lock-2", "lock-3"}},
		{[]string{"Schleu\u00dfe", "SCHLEUSSE"}, []string{"schleu\u00dfe", "schleusse-2"}},
		{[]string{"\u00e9cluse", "e\u0301cluse"}, []string{"\u00e9cluse", "\u00e9cluse-2"}},
		{[]string{"a/b\\c:d*e?f\"g<h>i|j", "..", ".hidden", "end. "}, []string{"a-b-c-d-e-f-g-h-i-j", "layer-2", "hidden", "end"}},
		{[]string{"\u6c34\u9580", "\U0001f6a2", "\u202ebarge", "tab\tnul\x01"}, []string{"\u6c34\u9580", "layer-2", "barge", "tab-nul"}},
		{[]string{"com\u00b9", "layer-2", "?", "!"}, []string{"com", "layer-2", "layer-3", "layer-4"}},
	} {
		assert.Equal(t, c.want, fileNames(playedBy(c.players...)), "%q", c.players)
	}
}

// A long name is cut after whole letters, at 60 bytes at most.
func TestLongFileNames(t *testing.T) {
	for _, letter := range []string{"a", "\u6c34", "\U0001d7ce", "e\u0301\u0323"} {
		name := fileNames(playedBy(strings.Repeat(letter, 100)))[0]
		assert.LessOrEqual(t, len(name), 60)
		assert.Greater(t, len(name), 50)
		assert.True(t, utf8.ValidString(name))
	}
}

// playedBy is a piece of one section with a layer for each player.
func playedBy(names ...string) *score.Piece {
	s := &score.Section{}
	for _, name := range names {
		s.Layers = append(s.Layers, &score.Layer{Name: name, Instrument: instrument.Rhythm})
	}
	return &score.Piece{Sections: []*score.Section{s}}
}
