package rows

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/score/beat"
)

// What is spoken: beats by the meter's own way of counting.
func TestCount(t *testing.T) {
	for _, c := range []struct {
		meter string
		least int64 // the finest pulse as a fraction of a whole note
		want  string
	}{
		{"4/4", 4, "1 2 3 4"}, {"4/4", 8, "1 + 2 + 3 + 4 +"}, {"3/4", 16, "1 e + a 2 e + a 3 e + a"},
		{"6/8", 8, "1 + a 2 + a"}, {"12/8", 8, "1 + a 2 + a 3 + a 4 + a"}, {"9/8", 4, "1 + a 2 + a 3 + a"},
		{"7/8", 8, "1 2 3 4 5 6 7"}, {"3+2+2/8", 8, "1 + a 2 + 3 +"}, {"2/4+3/8", 8, "1 e + a 2 + a"},
		{"4+5/8", 8, "1 e + a 2 + + + +"}, {"5/8", 16, "1 + 2 + 3 + 4 + 5 +"},
	} {
		st := section(t, "meter: "+c.meter+"\nlength: 1 bars\nlayers:\n  - {name: A, groups: 2+2, pulse: 1/"+fmt.Sprint(c.least)+"}\n")
		s := st.Section
		var said []string
		for _, y := range Count(s.Grid, s.Bar(1), st.Plain(), 0) {
			said = append(said, y.Text)
		}
		assert.Equal(t, c.want, strings.Join(said, " "), "%s in 1/%d", c.meter, c.least)
	}
}

func TestCountTuplet(t *testing.T) {
	st := section(t, "meter: 3/4\nlength: 1 bars\nlayers:\n  - {name: A, groups: 2+2, pulse: 1/8 in 3:2}\n  - {name: B, groups: 2+2, pulse: 1/16 in 5:4}\n")
	families := st.Families()
	require.Len(t, families, 3)
	for i, want := range []string{"1tl2tl3tl", "123451234512345"} {
		assert.Equal(t, []string{want}, said(st, families[i+1]))
	}
}

// Two kinds of triplets are told apart by their note values, two of the same
// values by their ratios; alone a tuplet needs only its number.
func TestWaysOfCountingAreNamedApart(t *testing.T) {
	for _, c := range []struct {
		pulses []string
		want   string
	}{
		{[]string{"1/8 in 3:2", "1/16 in 5:4", "1/8 in 3:2"}, " 3s 5s"},
		{[]string{"1/4 in 3:2", "1/8 in 3:2", "1/16 in 5:4"}, " 1/4 3s 1/8 3s 5s"},
		{[]string{"1/16 in 5:4", "1/16 in 5:3", "1/8 in 3:2"}, " 1/16 5:4 1/16 5:3 3s"},
		{[]string{"1/8", "3/16 in 3:2"}, " 3s"},
		{[]string{"1/8 in 2:3", "1/8 in 4:3"}, " 1/8 2s 4s"}, // 2s is a narrow chart's plain count
	} {
		text := "meter: 4/4\nlength: 1 bars\nlayers:\n"
		for i, pulse := range c.pulses {
			text += fmt.Sprintf("  - {name: L%d, groups: 2+2, pulse: %s}\n", i, pulse)
		}
		var got []string
		for _, f := range section(t, text).Families() {
			got = append(got, f.Name)
		}
		assert.Equal(t, c.want, strings.Join(got, " "), c.pulses)
	}
}

// A triplet that begins where a plain count has a word begins with that word:
// triplets of sixteenths in two beats of 2/4, and in the dotted beats of 6/8.
func TestTripletsInsideABeat(t *testing.T) {
	for meter, want := range map[string]string{"2/4": "1tl+tl2tl+tl", "6/8": "1tl+tlatl2tl+tlatl"} {
		st := section(t, "meter: "+meter+"\nlength: 1 bars\nlayers:\n  - {name: A, groups: 2+2, pulse: 1/16 in 3:2}\n")
		assert.Equal(t, []string{want}, said(st, st.Families()[1]))
	}
}

// said is what is counted in every bar.
func said(ch *Chart, f Family) []string {
	var all []string
	for b := range ch.Bars() {
		text, last := "", beat.Time(-1)
		for _, y := range ch.CountTuplet(b, f) {
			text += y.Text
			if y.At <= last {
				text += "?"
			}
			last = y.At
		}
		all = append(all, text)
	}
	return all
}

// Five in the time of four eighths over bars of 7/8, 8 3/4 pulses: the count goes
// on over the barlines, as the layer does. A layer that is cut at every barline is
// counted from there, one that enters at bar 2 from there.
func TestTupletsAreCountedWhereTheyStand(t *testing.T) {
	for _, c := range []struct{ layer, want string }{
		{"", "123451234 512345123 451234512 34512345"},
		{", loop: cut every 1 bars", "123451234 123451234 123451234 123451234"},
		{", enters: bar 2", "34512345 123451234 512345123 451234512"}, // and before it towards it,
	} {
		st := section(t, "meter: 7/8\nlength: 4 bars\nlayers:\n  - {name: A, groups: 2+3, pulse: 1/8 in 5:4"+c.layer+"}\n  - {name: B, groups: 7}\n")
		assert.Equal(t, c.want, strings.Join(said(st, st.Families()[1]), " "), c.layer)
	}
}
