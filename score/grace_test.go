package score

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// led writes what leads in to an attack and its tones as a spec does.
func led(a *Attack) string {
	var all []string
	for _, c := range append(a.Graces, a.Tones) {
		all = append(all, c.String())
	}
	return strings.Join(all, "/")
}

// C5/D5+F5/E5+G5: C, then D with F, lead in to E with G.
func TestLed(t *testing.T) {
	tone := func(step byte, grace uint8) Tone { return Tone{Step: step, Octave: 5, Grace: grace} }
	c := Chord{tone('C', 2), tone('D', 1), tone('F', 1), tone('E', 0), tone('G', 0)}
	assert.Equal(t, "C5/D5+F5/E5+G5", c.String())
	graces, struck := c.Led()
	assert.Equal(t, []Chord{{tone('C', 0)}, {tone('D', 0), tone('F', 0)}}, graces)
	assert.Equal(t, Chord{tone('E', 0), tone('G', 0)}, struck)
	plain := Chord{tone('E', 0)}
	graces, struck = plain.Led()
	assert.Nil(t, graces)
	assert.Equal(t, plain, struck)
	assert.Equal(t, 2, (&Layer{Series: [][]Chord{{plain}, {plain, c}}}).MostGraces())
}

// A series of grace notes counts attacks, not notes: D5/E5 A5 over 3+2+2, which has
// three attacks a cycle. A flam adds its own sound, a drag two, behind what the
// series has.
func TestGraceNotesAreNoAttacks(t *testing.T) {
	l := layer("Flute", groups(3, 2, 2))
	l.Series = [][]Chord{{{{Step: 'D', Octave: 5, Grace: 1}, {Step: 'E', Octave: 5}}, {{Step: 'A', Octave: 5}}}}
	l.Touches = []Touch{Plain, Drag, Flam | Accented}
	s := in(PlainSignature(7, 8), LengthRule{Kind: Bars, N: 2}, l)
	settle(t, s)
	var got []string
	for _, a := range s.Attacks(0) {
		got = append(got, led(a))
	}
	assert.Equal(t, []int{0, 3, 5, 7, 10, 12}, onsets(t, s, 0))
	assert.Equal(t, []string{"D5/E5", "A5/A5/A5", "D5/E5/E5", "D5/E5", "A5/A5/A5", "D5/E5/E5"}, got)
}
