package task

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"tieover/score/spec/spectest"
)

// What the prompts say of loops is true of what is played, and names groups only
// where the row cannot show them: those of two cycles of seven, in two bars of 5/8.
func TestPromptsOfChangingLayers(t *testing.T) {
	prompt := func(kind Kind, layer string) string {
		p := spectest.Read(t, "title: T\nmeter: 5/8\ntempo: 60\nlength: 14 bars\nlayers:\n  - {name: A, "+layer+"}\n  - {name: B, groups: 5, strike: all, offset: 5}\n")
		made, left := Make(p, Options{Level: 1, Only: []Kind{kind}})
		require.Empty(t, left)
		return made[0].Prompt
	}
	grows := "groups: 3+2+2, process: {grow: {group: 1, by: 1, from: 2}, until: realignment}"
	figures := ", figures: {3: x=xx..}"
	assert.Contains(t, prompt(Beam, "groups: [3+2+2, 2+2+3]"+figures), "Its groups, cycle by cycle, are 3+2+2, 2+2+3. ")
	assert.Contains(t, prompt(Beam, "groups: 3+2+2"+figures), "Its groups are 3+2+2. ")
	assert.NotContains(t, prompt(Beam, "groups: 3+2+2"), "3+2+2", "the row shows where groups begin")
	assert.Contains(t, prompt(Realign, grows), " a begins with a loop of 7 eighths, which changes from cycle to cycle. b plays a loop of 5 eighths.")
}

// A figure of half pulses is written out in half pulses, sixteenths here: 3 is
// struck at 0, 1 and 1 1/2 and silent from 2, 2 is held. Its cycles have no row of
// pulses to continue.
func TestLinesFinerThanThePulse(t *testing.T) {
	p := spectest.Read(t, "title: T\nmeter: 5/8\ntempo: 60\nlength: 4 bars\nlayers:\n  - name: A\n    groups: 3+2\n    figures: {3: x=xx..}\n"+
		"    process: {rotate: {by: 1, after: 9}}\n")
	made, left := Make(p, Options{Level: 1, Only: []Kind{Beam, Next}})
	require.Len(t, made, 1)
	assert.Equal(t, []string{"one sign = one sixteenth:", "x struck: a group begins", "o struck inside a group", "= held", ". silent"}, made[0].Given.Legend)
	assert.Equal(t, []Row{{Signs: strings.Fields("x = o o . . x = = = x = o o . . x = = =")}}, made[0].Given.Rows)
	assert.Equal(t, []Left{{Next, "A has attacks between its pulses; figures of whole pulses would serve"}}, left)
}

// 5+4+3 in 5/4: the last eighth of 4 and the first of 3, which is tied over the
// barline, stand alone in their groups and share beat 5.
func TestFlagsAloneInAGroup(t *testing.T) {
	for groups, want := range map[string]bool{"5+4+3": true, "4+4+2": false, "2+2": false} {
		p := spectest.Read(t, "title: T\nmeter: 5/4\ntempo: 60\nlength: 4 bars\nlayers:\n  - {name: A, groups: "+groups+"}\n")
		made, _ := Make(p, Options{Level: 1, Only: []Kind{Beam}})
		require.Len(t, made, 1)
		said := strings.Contains(made[0].Prompt, "Flags that stand alone in their groups")
		assert.Equal(t, want, said, "%s: %v", groups, made[0].Answer)
	}
}
