package cyclebars_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/layout/cyclebars"
	"tieover/score"
	"tieover/score/source"
	"tieover/score/spec"
)

// section reads a section whose first layer is Sluice.
func section(t *testing.T, head, layer string) *score.Section {
	t.Helper()
	text := "title: Weir\n" + head + "\nlayers:\n  - {name: Sluice, " + layer + "}\n  - {name: Gate, groups: 8}\n"
	p, problems := spec.Read([]spec.File{{Name: "weir.yaml", Text: []byte(text)}})
	require.NoError(t, problems.Err())
	return p.Sections[0]
}

// drawn writes the bars of the first layer, with the eighths that each lasts.
func drawn(s *score.Section, split bool) string {
	var all []string
	for b := range cyclebars.Of(s, 0, split) {
		eighths := s.Grid.Span(b.Length).Times(8)
		all = append(all, fmt.Sprintf("%d:%v in %v", b.N, eighths, b.Signature))
	}
	return strings.Join(all, ", ")
}

// A bar of 4/4 is eight eighths; the sums are worked out beside each case.
func TestOf(t *testing.T) {
	for _, c := range []struct{ name, head, layer, want string }{
		{"16 eighths are two cycles of seven and two eighths of a third", "meter: 4/4\nlength: 2 bars", "groups: 3+2+2",
			"1:7 in 3+2+2/8, 2:7 in 3+2+2/8, 3:2 in 1/4"},
		{"sixteenths make the denominator", "meter: 4/4\nlength: 1 bar", "pulse: 1/16, groups: 5+3",
			"1:4 in 5+3/16, 2:4 in 5+3/16"},
		{"before the layer enters the meter has its bars", "meter: 4/4\nlength: 2 bars", "groups: 4+4, enters: bar 2",
			"1:8 in 4/4, 2:8 in 4+4/8"},
		{"a cycle that begins on beat 3 shortens the meter's bar", "meter: 4/4\nlength: 2 bars", "groups: 5+7, enters: bar 1 beat 3",
			"1:4 in 2/4, 2:12 in 5+7/8"},
		{"after it has left, too: 14 eighths are cycles of six, six and two; then come bars 3 and 4", "meter: 4/4\nlength: 4 bars", "groups: 2+4, leaves: bar 3",
			"1:6 in 2+4/8, 2:6 in 2+4/8, 3:4 in 2+2/8, 4:8 in 4/4, 5:8 in 4/4"},
		{"a pickup in which the layer does not play is the meter's", "meter: 4/4\npickup: 1/4\nlength: 1 bar", "groups: 4+4",
			"0:2 in 4/4, 1:8 in 4+4/8"},
		{"the others land in a bar of the meter", "meter: 4/4\nlength: 2 bars\nend: land", "groups: 4+4",
			"1:8 in 4+4/8, 2:8 in 4+4/8, 3:8 in 4/4"},
		{"the groups of a tuplet are no beats: twelve triplet eighths are a bar of 4/4", "meter: 4/4\nlength: 2 bars", "pulse: 1/8 in 3:2, groups: 5+7",
			"1:8 in 4/4, 2:8 in 4/4"},
		{"six of them are half a bar", "meter: 4/4\nlength: 1 bar", "pulse: 1/8 in 3:2, groups: 2+4",
			"1:4 in 2/4, 2:4 in 2/4"},
	} {
		assert.Equal(t, c.want, drawn(section(t, c.head, c.layer), false), c.name)
	}
}

// A cycle is split into as many equal bars of two groups or more as there can be.
func TestOfSplits(t *testing.T) {
	for _, c := range []struct{ groups, length, want string }{
		{"2+3+2+3", "10", "1:5 in 2+3/8, 2:5 in 2+3/8"},
		{"2+3+3+2", "10", "1:5 in 2+3/8, 2:5 in 3+2/8"},
		{"2+2+1+3+2+2", "12", "1:4 in 2+2/8, 2:4 in 1+3/8, 3:4 in 2+2/8"},
		{"5+2+3", "10", "1:10 in 5+2+3/8"}, // five and five would leave a bar of one group
		{"2+3+2+4", "11", "1:11 in 2+3+2+4/8"},
		{"2+3+2+3", "15", "1:5 in 2+3/8, 2:5 in 2+3/8, 3:5 in 2+3/8"}, // half a cycle is not split
	} {
		got := drawn(section(t, "meter: 4/4\nlength: "+c.length+" pulses", "groups: "+c.groups), true)
		assert.Equal(t, c.want, got, c.groups)
	}
}

// A repeat goes back to bar 1, two eighths after the pickup of 1/4 began. Cycles of
// seven eighths from there on have a barline at 0 and at 7, not at 2.
func TestCheckOfARepeatAfterAPickup(t *testing.T) {
	for enters, want := range map[string]string{
		"pickup": "the repeat goes back to bar 1, but a bar of Sluice's own lies over its beginning",
		"bar 1":  "",
	} {
		var problems source.Problems
		cyclebars.Check(section(t, "meter: 4/4\npickup: 1/4\nlength: 7 bars\nend: repeat", "groups: 2+5, enters: "+enters), 0, false, &problems)
		if want == "" {
			assert.Empty(t, problems)
			continue
		}
		require.Len(t, problems, 1)
		assert.Equal(t, want, problems[0].Text)
	}
}

// A free line has no cycles.
func TestCheckOfAFreeLine(t *testing.T) {
	var problems source.Problems
	cyclebars.Check(section(t, "meter: 4/4\nlength: 1 bar", `instrument: flute, line: "C5 half, D5 half"`), 0, false, &problems)
	require.Len(t, problems, 1)
	assert.Equal(t, `layer "Sluice" is a free line and has no cycles that could be bars`, problems[0].Text)
}

func TestCheck(t *testing.T) {
	for _, c := range []struct{ name, head, layer, want string }{
		{"", "meter: 4/4\nlength: 2 bars", "groups: 3+2+2", ""},
		{"five triplet eighths are 5/12 of a whole note", "meter: 4/4\nlength: 2 bars", "pulse: 1/8 in 3:2, groups: 2+3",
			`bar 1, layer "Sluice": a cycle of 5/12 whole notes is no bar of any meter`},
		{"64 units are the most", "meter: 4/4\nlength: 8 bars", "groups: 32+32", ""},
		{"65 are too many", "meter: 4/4\nlength: 9 bars", "groups: 32+33", `bar 1, layer "Sluice": a cycle of 32+33/8 is too long for one bar`},
	} {
		var problems source.Problems
		s := section(t, c.head, c.layer)
		cyclebars.Check(s, 0, false, &problems)
		if c.want == "" {
			assert.Empty(t, problems, c.name)
			continue
		}
		require.Len(t, problems, 1, c.name)
		assert.Equal(t, c.want, problems[0].Text, c.name)
		assert.Equal(t, s.Layers[0].Pos, problems[0].Pos)
	}
}
