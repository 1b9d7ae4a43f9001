package score

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Signatures of the trade's circle of fifths (common practice).
func TestKeyNames(t *testing.T) {
	for want, k := range map[string]Key{
		"Eb major": {Fifths: -3, Mode: "major"}, "F# minor": {Fifths: 3, Mode: "minor"}, "D dorian": {Mode: "dorian"},
		"F major": {Fifths: -1, Mode: "major"}, "Cb major": {Fifths: -7, Mode: "major"}, "C# major": {Fifths: 7, Mode: "major"},
		"A# minor": {Fifths: 7, Mode: "minor"}, "Bb minor": {Fifths: -5, Mode: "minor"}, "F lydian": {Mode: "lydian"},
		"no key": {None: true}, "1 flat": {Fifths: -1}, "2 sharps": {Fifths: 2}, "0 sharps": {},
	} {
		assert.Equal(t, want, k.String())
	}
}
