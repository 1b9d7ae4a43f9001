package fingering_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/score/fingering"
)

var (
	guitar    = keys("E2 A2 D3 G3 B3 E4")
	droppedD  = keys("D2 A2 D3 G3 B3 E4")
	bass      = keys("E1 A1 D2 G2")
	twoAlike  = keys("D3 G3 G3")
	reentrant = keys("C3 F3 D3 G3") // the third string is tuned above the second
	semitones = map[byte]int{'C': 0, 'D': 2, 'E': 4, 'F': 5, 'G': 7, 'A': 9, 'B': 11}
)

// keys reads pitches, some sharp, as MIDI keys.
func keys(text string) (all []int) {
	for _, p := range strings.FieldsFunc(text, func(r rune) bool { return r == ' ' || r == '+' }) {
		all = append(all, 12*(int(p[len(p)-1]-'0')+1)+semitones[p[0]]+strings.Count(p, "#"))
	}
	return all
}

// row reads a pitch series.
func row(text string) (all []fingering.Attack) {
	for _, word := range strings.Fields(text) {
		chords := strings.Split(word, "/")
		a := fingering.Attack{Struck: keys(chords[len(chords)-1])}
		for _, g := range chords[:len(chords)-1] {
			a.Graces = append(a.Graces, keys(g))
		}
		all = append(all, a)
	}
	return all
}

// text writes hands as string/fret, grace notes before a >.
func text(hands []fingering.Hand) string {
	var words []string
	chord := func(stops []fingering.Stop) string {
		var tones []string
		for _, s := range stops {
			tones = append(tones, fmt.Sprintf("%d/%d", s.String, s.Fret))
		}
		return strings.Join(tones, "+")
	}
	for _, h := range hands {
		word := chord(h.Struck)
		for k := len(h.Graces) - 1; k >= 0; k-- {
			word = chord(h.Graces[k]) + ">" + word
		}
		words = append(words, word)
	}
	return strings.Join(words, " ")
}

// Worked by hand from the definition: least sum of h + 3·|Δh| round the row, then of
// frets, then the strings.
func TestRows(t *testing.T) {
	for _, c := range []struct {
		tuning []int
		row    string
		line   bool
		want   string
	}{
		// All in the first position; open strings save frets.
		{guitar, "E3 B3 G3 A3+D4", false, "4/2 2/0 3/0 3/2+2/3"},
		{guitar, "C3 E3 G3+C4+E4", false, "5/3 4/2 3/0+2/1+1/0"},
		// Staying at 12 costs 60; from 5 to 12 and back 80.
		{guitar, "A4 C5 D5 E5 G5", false, "3/14 2/13 2/15 1/12 1/15"},
		// Once through, with no way back, the hand climbs: 7 7 7 9 12 cost 42 and 15.
		{guitar, "A4 C5 D5 E5 G5", true, "2/10 1/8 1/10 1/12 1/15"},
		{bass, "E2 G2 A2", false, "2/2 1/0 1/2"},
		{guitar, "E4+G3+C4", false, "1/0+3/0+2/1"}, // a chord written downwards
		// Chords: the barre of F at h = 1 leaves C's open strings where they are.
		{guitar, "C3+G3+C4+E4 F2+C3+F3+A3+C4+F4", false, "5/3+3/0+2/1+1/0 6/1+5/3+4/3+3/2+2/1+1/1"},
		// A chord and a note far up: E5 is at 1/12 with h from 9 on. The chord, stopped at
		// fret 2, allows h = 2 at most: 2 + 9 + 3·7·2 = 53, with h = 1 it would be 58.
		{guitar, "E2+B2+E3 E5", false, "6/0+5/2+4/2 1/12"},
		// B5 is at 1/19 only, h from 16 on; an open string is under any hand, so E4 stays
		// open (16 + 16; 5/19 costs as much and has more frets).
		{guitar, "E4 B5", false, "1/0 1/19"},
		// The sixth string a whole tone down: power chords under one finger.
		{droppedD, "D2+A2+D3 E2+B2+E3 F2+C3+F3", false, "6/0+5/0+4/0 6/2+5/2+4/2 6/3+5/3+4/3"},
		{droppedD, "E2 D2", false, "6/2 6/0"},
		// Two strings alike: the first.
		{twoAlike, "A3", false, "1/2"},
		{twoAlike, "A3+B3", false, "2/2+1/4"},
		// A note is led in to on its own string, where the hand reaches: 2/0 would have
		// fewer frets than 3/4.
		{guitar, "A3/B3", false, "3/2>3/4"},
		{guitar, "D5/E5", false, "1/10>1/12"},
		{guitar, "A3/B3 E4", true, "3/2>3/4 1/0"},
		{guitar, "B3/C4/D4+G4", false, "2/0>2/1>2/3+1/3"},
		// G2 is open on the first string or at the fifth fret of the second: both are the chord's.
		{bass, "G2/G#2+B2", true, "1/0>2/6+1/4"},
		// C#3 has h = 1. Then 4/1>4/2 with F3 apart has one fret less than F3 on D3's string, 2/3>2/0,
		// with C#3 apart.
		{reentrant, "D4/D#4 F3/C#3/D3", false, "1/7>1/8 3/0>4/1>4/2"},
		// h of 4 and 4 costs 8, of 3 and 2 too; from 2, where 1/2 is stopped, both D#4 would be apart.
		{droppedD, "G#2 D#4/D#4/F#4", true, "6/6 2/4>2/4>2/7"},
		// 8 and 9 with a move, or 10 and 10: 20. One grace note is apart in both. 39 frets, not 58.
		{guitar, "G3/A#3 G#4/B4+D5", true, "3/0>4/8 2/9>2/12+1/10"},
		// 6 and 6, or 5 and 4 with a move: 12; none apart; 29 frets, for 3/4 with 5/5 makes up for
		// 4/9 with 4/0. The string of the grace note decides, 4 before 5.
		{guitar, "C5 D3/D#3+F4+B3", true, "1/8 4/0>5/6+2/6+4/9"},
		// The third is at 7 only: 6 and 7 before it cost 13 + 3, 5 and 5 cost 10 + 6. The second has 17 frets
		// in both, 3/7+2/10 with 2/0 or 3/7+1/5 with 3/5. String 2 is before 3.
		{bass, "B1+C#3 D2/E2+C3 D2/A1+C3+D3 C4", true, "4/7+1/6 2/0>3/7+2/10 2/0>3/0+2/10+1/7 1/17"},
		// E5 at 12 from h = 12, where D5 is on the second string only: it is picked there.
		{guitar, "D5/E5 G5", false, "2/15>1/12 1/15"},
	} {
		hands, bad := fingering.Choose(c.tuning, row(c.row), !c.line)
		require.Empty(t, bad, c.row)
		assert.Equal(t, c.want, text(hands), c.row)
	}
}

// What no hand can hold is named by its place in the row.
func TestImpossible(t *testing.T) {
	for _, c := range []struct {
		tuning []int
		row    string
		bad    []int
	}{
		{guitar, "E3 C3+D3+E3", []int{1}},          // 6/8 5/5 4/2 is the only order of strings, six frets wide
		{guitar, "E2+F2", []int{0}},                // both on the sixth string only
		{guitar, "D2", []int{0}},                   // below it
		{guitar, "D6", []int{0}},                   // 1/22: there are 20 frets
		{guitar, "B2+D3+F3+A3+C4+E4+G4", []int{0}}, // seven notes
		{guitar, "E3 F2/F5", []int{1}},             // 6/1 and 1/13 or 2/18: not in one position
		{bass, "E1+G1 E1 D1", []int{0, 2}},
		{droppedD, "D2+E2", []int{0}},
	} {
		_, bad := fingering.Choose(c.tuning, row(c.row), true)
		assert.Equal(t, c.bad, bad, c.row)
	}
	hands, bad := fingering.Choose(guitar, row("C6"), true) // the last fret
	require.Empty(t, bad)
	assert.Equal(t, "1/20", text(hands))
}
