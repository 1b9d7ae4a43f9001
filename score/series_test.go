package score

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// Worked out by hand, in eighths: cycles of 5 and 6 meet at 30 and 60. A series
// is in force from one realignment to the next, inside a cycle too.
func TestSeriesByRealignment(t *testing.T) {
	tones := func(names string) (series []Chord) {
		for _, name := range strings.Fields(names) {
			series = append(series, Chord{{Step: name[0], Octave: 4}})
		}
		return series
	}
	for _, c := range []struct {
		name    string
		sizes   []int
		restart Restart
		from    int // attack of this moment, and what follows
		want    string
	}{
		{"each cycle begins the series anew", []int{3, 2}, RestartCycle, 25, "C4 D4 E4 F4 E4 F4"},
		{"it runs on until the next realignment", []int{3, 2}, RestartRealignment, 25, "C4 D4 E4 F4 G4 E4"},
		{"a list that is used up is dealt again", []int{3, 2}, RestartRealignment, 55, "F4 G4 C4 D4 C4 D4"}, // of 12 attacks from 30 on the last two
		{"the series changes inside a cycle, which keeps its place", []int{2, 2, 2, 2}, RestartCycle, 24, "C4 D4 C4 E4 E4 F4 G4 E4"},
	} {
		a, b, l := layer("a", groups(3, 2)), layer("b", groups(3, 3)), layer("l", groups(c.sizes...))
		l.Series, l.Restart, l.SeriesBy = [][]Chord{tones("C D"), tones("E F G")}, c.restart, EachRealignment
		s := in(PlainSignature(5, 8), LengthRule{Kind: Bars, N: 18}, a, b, l)
		s.SetNames = []Named{{Name: "a"}, {Name: "b"}}
		settle(t, s)
		var got []string
		for at, attack := range s.Attacks(2) {
			if eighths(t, at) >= c.from && len(got) < len(strings.Fields(c.want)) {
				got = append(got, attack.Tones.String())
			}
		}
		assert.Equal(t, c.want, strings.Join(got, " "), c.name)
	}
}
