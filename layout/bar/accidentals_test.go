package bar

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/score"
)

// Accidentals hold for their staff, letter and octave to the bar's end; a sign
// in parentheses with ? is a courtesy. By hand from accidentalState's comment;
// the rules are common practice, from memory.
func TestAccidentals(t *testing.T) {
	c, g, f := score.Key{}, score.Key{Fifths: 1}, score.Key{Fifths: -1}
	for _, row := range []struct {
		why      string
		key      score.Key
		text, is string
	}{
		{"nothing foreign, no sign", c, "C4 E4 G4 B4", "C4 E4 G4 B4"},
		{"once, to the bar's end", c, "F#4 G4 F#4 F#4", "F(#)4 G4 F#4 F#4"},
		{"and taken back", c, "F#4 F4 F4 F#4", "F(#)4 F(n)4 F4 F(#)4"},
		{"the key's own sign is not printed", g, "F#4 F4 F#4 F#4", "F#4 F(n)4 F(#)4 F#4"},
		{"of flats too", f, "Bb4 B4 Bb4 C5", "Bb4 B(n)4 B(b)4 C5"},
		{"double signs are signs of their own", c, "F##4 F#4 Bbb4 B4", "F(##)4 F(#)4 B(bb)4 B(n)4"},
		{"no signature: every one", score.Key{None: true}, "F#4 Bb4 B4 F#4", "F(#)4 B(b)4 B(n)4 F#4"},

		{"each octave has its own", c, "F#4 F#5 F#5 F#4", "F(#)4 F(#)5 F#5 F#4"},
		{"a courtesy in the other octave, once", c, "F#4 F5 F5 G5", "F(#)4 F(n?)5 F5 G5"},
		{"below as above", c, "F4 F#5 F4 F4", "F4 F(#)5 F(n?)4 F4"},
		{"none if the other octave was taken back", c, "F#4 F4 F5 G4", "F(#)4 F(n)4 F5 G4"},
		{"none for other letters", c, "F#4 G4 G5 E5", "F(#)4 G4 G5 E5"},
		{"a real sign needs no courtesy", c, "F#4 Fb5 C5 C5", "F(#)4 F(b)5 C5 C5"},

		{"the bar after: a courtesy, once", c, "F#4 G4 A4 B4 | F4 F4 G4 A4", "F(#)4 G4 A4 B4 | F(n?)4 F4 G4 A4"},
		{"the bar after: a sign is a sign", c, "F#4 G4 A4 B4 | F#4 F4 G4 A4", "F(#)4 G4 A4 B4 | F(#)4 F(n)4 G4 A4"},
		{"two bars after: forgotten", c, "F#4 G4 A4 B4 | G4 G4 G4 G4 | F4 G4 G4 G4", "F(#)4 G4 A4 B4 | G4 G4 G4 G4 | F4 G4 G4 G4"},
		{"taken back before the barline: no doubt", c, "F#4 F4 A4 B4 | F4 F4 G4 A4", "F(#)4 F(n)4 A4 B4 | F4 F4 G4 A4"},
		{"another octave in the bar after: no doubt", c, "F#4 G4 A4 B4 | F5 G5 A5 B5", "F(#)4 G4 A4 B4 | F5 G5 A5 B5"},
		{"a natural against the key is remembered", g, "F4 G4 A4 B4 | F#4 F#4 G4 A4", "F(n)4 G4 A4 B4 | F(#?)4 F#4 G4 A4"},
		{"several places at once", c, "C#4 D#4 Eb4 F#5 | C4 D4 E4 F5", "C(#)4 D(#)4 E(b)4 F(#)5 | C(n?)4 D(n?)4 E(n?)4 F(n?)5"},

		{"a tied note prints nothing", c, "B4 B4 B4 C#4 | ~C#4 D4 E4 F4", "B4 B4 B4 C(#)4 | ~C#4 D4 E4 F4"},
		{"and sets nothing", c, "B4 B4 B4 C#4 | ~C#4 C#4 E4 F4", "B4 B4 B4 C(#)4 | ~C#4 C(#)4 E4 F4"},
		{"but leaves a doubt", c, "B4 B4 B4 C#4 | ~C#4 C4 E4 F4", "B4 B4 B4 C(#)4 | ~C#4 C(n?)4 E4 F4"},
		{"a doubt for the bar after it too", c, "B4 B4 B4 C#4 | ~C#4 D4 E4 F4 | C4 D4 E4 F4", "B4 B4 B4 C(#)4 | ~C#4 D4 E4 F4 | C(n?)4 D4 E4 F4"},
		{"tied inside the bar", c, "C#4 ~C#4 C#4 C4", "C(#)4 ~C#4 C#4 C(n)4"},
		{"a new system tells a tied note's sign again", c, "B4 B4 B4 C#4 || ~C#4 D4 E4 F4", "B4 B4 B4 C(#)4 | ~C(#?)4 D4 E4 F4"},
		{"and of each head", c, "B4 B4 B4 C#4+F#4 || ~C#4+F#4 F4 E4 F4", "B4 B4 B4 C(#)4+F(#)4 | ~C(#?)4+F(#?)4 F(n?)4 E4 F4"},
		{"if it is foreign to the key", c, "B4 B4 B4 C4 || ~C4 C4 E4 F4", "B4 B4 B4 C4 | ~C4 C4 E4 F4"},
		{"a natural against the key is", f, "C5 C5 C5 B4 || ~B4 C5 C5 C5", "C5 C5 C5 B(n)4 | ~B(n?)4 C5 C5 C5"},
		{"not within the bar", c, "B4 B4 B4 B4 || C#4 ~C#4 E4 F4", "B4 B4 B4 B4 | C(#)4 ~C#4 E4 F4"},
		{"an untied note has its plain sign there", c, "B4 B4 B4 C#4 || C#4 D4 E4 F4", "B4 B4 B4 C(#)4 | C(#)4 D4 E4 F4"},

		{"in chords by head", c, "C#4+E4+G#4 C#4+E4+G4 C4 E4", "C(#)4+E4+G(#)4 C#4+E4+G(n)4 C(n)4 E4"},
		{"voices of one staff share them, in time", c, "F4 A4 F#4 A4 / ^F4 C4 C4 F4", "F4 A4 F(#)4 A4 / F4 C4 C4 F(n)4"},
		{"the lower first if it is earlier", c, "A4 A4 F#4 A4 / ^C4 F#4 C4 C4", "A4 A4 F#4 A4 / C4 F(#)4 C4 C4"},
		{"the upper first at one moment", c, "F#4 A4 A4 A4 / ^F#4 C4 C4 C4", "F(#)4 A4 A4 A4 / F#4 C4 C4 C4"},
		{"staves do not, nor courtesies", c, "F#4 A4 A4 A4 / C3 F4 F3 C3", "F(#)4 A4 A4 A4 / C3 F4 F3 C3"},
		{"nor doubts", c, "F#4 A4 A4 A4 / C3 C3 C3 C3 | A4 A4 A4 A4 / F4 C3 C3 C3", "F(#)4 A4 A4 A4 / C3 C3 C3 C3 | A4 A4 A4 A4 / F4 C3 C3 C3"},
		{"a bare note has none", c, "x F#4 x F#4", "x0 F(#)4 x0 F#4"},
	} {
		got, _ := staves(t, row.key, row.text)
		assert.Equal(t, row.is, got, row.why)
	}
}

// What a bar leaves in the reader's ear: staff, letter, octave, alteration of
// each place whose last note is foreign to the key, in that order.
func TestAltered(t *testing.T) {
	_, altered := staves(t, score.Key{Fifths: 1}, "G#5+A#4+G#4 F4 C4 C#4 / B2+Bb3 A#2+C3+C#4 C3 F#3 | G#4 G4 G4 G4 / C3 C3 C3 C3")
	down := byte(0xff) // one half step lower
	assert.Equal(t, []byte{1, 'A', 4, 1, 1, 'C', 4, 1, 1, 'F', 4, 0, 1, 'G', 4, 1, 1, 'G', 5, 1,
		2, 'A', 2, 1, 2, 'B', 3, down, 2, 'C', 4, 1}, altered[0])
	assert.Empty(t, altered[1])
}
