package bar

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/score"
	"tieover/score/beat"
)

// A slash a beat, from where a pickup begins: the beats of the meter, and where no sign is
// as long as a summand, twos of its unit with the rest at the end. By hand.
func TestSlashes(t *testing.T) {
	for _, c := range []struct{ meter, skipped, is string }{
		{"4/4", "0/1", "0+1/4 1/4+1/4 1/2+1/4 3/4+1/4"},
		{"6/8", "0/1", "0+3/8 3/8+3/8"},
		{"5/8", "0/1", "0+1/8 1/8+1/8 1/4+1/8 3/8+1/8 1/2+1/8"},
		{"3+4/8", "0/1", "0+3/8 3/8+1/2"},
		{"5+3/8", "0/1", "0+1/4 1/4+3/8 5/8+3/8"},                 // five is two and three, and no sign cut
		{"9+2/8", "0/1", "0+1/4 1/4+1/4 1/2+1/4 3/4+3/8 9/8+1/4"}, // nine are 2+2+2+3
		{"3+5/16", "0/1", "0+3/16 3/16+1/8 5/16+3/16"},            // twos of sixteenths
		{"4/4", "1/4", "0+1/4 1/4+1/4 1/2+1/4"},                   // a pickup of three quarters
		{"4/4", "5/8", "0+1/8 1/8+1/4"},                           // of three eighths: the end of beat 3 and beat 4
		{"6/8", "5/8", "0+1/8"},                                   // of one
		{"5+3/8", "1/8", "0+1/2 1/2+3/8"},                         // four eighths of the five are one sign
		{"2/4+3/8", "1/2", "0+3/8"},
	} {
		var got []string
		for _, s := range Slashes(signature(t, c.meter), testGrid.Must(fraction(t, c.skipped)), NoteValues{Grid: testGrid}) {
			assert.Equal(t, score.Chord{{}}, s.Tones)
			got = append(got, testGrid.Span(s.At).String()+"+"+testGrid.Span(s.Length).String())
		}
		assert.Equal(t, c.is, strings.Join(got, " "), "%s without %s", c.meter, c.skipped)
	}
	assert.Empty(t, Slashes(signature(t, "4/4"), beat.Time(testGrid), NoteValues{Grid: testGrid}), "nothing is left of the bar")
}
