package score

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// Kinds are those of the MusicXML 4.0 list kind-value; how chords are written
// is common practice.
func TestChordSymbols(t *testing.T) {
	for _, c := range []struct{ text, root, kind, bass, degrees string }{
		{"C", "C 0", "major", "", ""},
		{"Bb", "B -1", "major", "", ""},
		{"B♭", "B -1", "major", "", ""},
		{"F#m7/E", "F 1", "minor-seventh", "E 0", ""},
		{"Am", "A 0", "minor", "", ""},
		{"Em/Db", "E 0", "minor", "D -1", ""},
		{"G7", "G 0", "dominant", "", ""},
		{"Gmaj7", "G 0", "major-seventh", "", ""},
		{"Cm7b5", "C 0", "half-diminished", "", ""},
		{"C°7", "C 0", "diminished-seventh", "", ""},
		{"C+", "C 0", "augmented", "", ""},
		{"CmM7", "C 0", "major-minor", "", ""},
		{"Csus4", "C 0", "suspended-fourth", "", ""},
		{"C7sus4", "C 0", "suspended-fourth", "", "add 7 0"},
		{"C9sus4", "C 0", "suspended-fourth", "", "add 7 0, add 9 0"},
		{"C5", "C 0", "power", "", ""},
		{"C6/9", "C 0", "major-sixth", "", "add 9 0"},
		{"C13(#11)", "C 0", "dominant-13th", "", "add 11 1"},
		{"C7(b9,#5)", "C 0", "dominant", "", "add 9 -1, alter 5 1"},
		{"C7b9", "C 0", "dominant", "", "add 9 -1"},
		{"Cadd9", "C 0", "major", "", "add 9 0"},
		{"Cno3", "C 0", "major", "", "subtract 3 0"},
		{"Dm11", "D 0", "minor-11th", "", ""},
		{"Cb5", "C -1", "power", "", ""}, // as it is read aloud: C flat, fifth
		{"CMA7", "C 0", "major-seventh", "", ""}, {"CMa9", "C 0", "major-ninth", "", ""}, {"Cma13", "C 0", "major-13th", "", ""},
		{"CMaj6", "C 0", "major-sixth", "", ""}, {"CMAJ", "C 0", "major", "", ""}, {"CMI7", "C 0", "minor-seventh", "", ""},
		{"CMi6", "C 0", "minor-sixth", "", ""}, {"Cmi11", "C 0", "minor-11th", "", ""}, {"CMIN13", "C 0", "minor-13th", "", ""},
		{"C2", "C 0", "major", "", "add 9 0"},
		{"Calt", "C 0", "dominant", "", "alter 5 1, add 9 -1, add 9 1"}, {"C7alt", "C 0", "dominant", "", "alter 5 1, add 9 -1, add 9 1"},
		{"N.C.", " 0", "none", "", ""}, {"H7", "", "", "", ""}, {"Cfoo", "", "", "", ""}, {"", "", "", "", ""},
		{"C7b", "", "", "", ""}, {"C/E/G", "", "", "", ""}, {"C7 9", "", "", "", ""},
	} {
		got, ok := ParseHarmony(c.text)
		assert.Equal(t, c.kind != "", ok, c.text)
		if !ok {
			continue
		}
		assert.Equal(t, c.root, fmt.Sprintf("%s %d", got.Root.Step, got.Root.Alter), c.text)
		assert.Equal(t, c.kind, got.Kind, c.text)
		bass := ""
		if got.Bass.Step != "" {
			bass = fmt.Sprintf("%s %d", got.Bass.Step, got.Bass.Alter)
		}
		assert.Equal(t, c.bass, bass, c.text)
		var degrees []string
		for _, d := range got.Degrees {
			degrees = append(degrees, fmt.Sprintf("%s %d %d", d.Change, d.Value, d.Alter))
		}
		assert.Equal(t, c.degrees, strings.Join(degrees, ", "), c.text)
	}
}
