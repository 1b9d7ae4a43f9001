package task

import (
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tieover/score/sample"
	"tieover/score/spec/spectest"
)

var (
	asksFor = regexp.MustCompile(`which --level ([23]) asks for`)
	aWayOut = regexp.MustCompile(`it needs |would serve|--only [a-z]+ makes it|--level [23]|cannot play apart from the others: .*; .`)
)

// Whatever the piece, a reason says what would allow the exercise; and where it
// names a flag, that flag makes it.
func TestEveryReasonHasAWayOut(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := sample.YAML(t)
		p := spectest.Read(t, text)
		o := Options{Level: rapid.IntRange(1, 3).Draw(t, "level"), Seed: rapid.Uint64Range(0, 5).Draw(t, "seed")}
		_, left := Make(p, o)
		for _, l := range left {
			require.Regexp(t, aWayOut, l.Why, text)
			only := Options{Level: o.Level, Seed: o.Seed, Only: []Kind{l.Kind}}
			if strings.Contains(l.Why, "--only "+string(l.Kind)+" makes it") {
				made, _ := Make(p, only)
				require.NotEmpty(t, made, "%s: %s\n%s", l.Kind, l.Why, text)
			}
			if m := asksFor.FindStringSubmatch(l.Why); m != nil {
				only.Level, _ = strconv.Atoi(m[1])
				made, _ := Make(p, only)
				require.NotEmpty(t, made, "%s: %s\n%s", l.Kind, l.Why, text)
			}
		}
	})
}

// What each reason says would allow the exercise does. By hand, a change at a time.
func TestWhatAReasonAsksForMakesTheExercise(t *testing.T) {
	const bell = "  - {name: Bell, groups: 2+3}\n"
	for _, c := range []struct {
		kind         Kind
		without, why string
		with         string
	}{
		{Next, "layers:\n  - {name: A, groups: 3+2}\n", "no layer has a process", "length: 30 bars\nlayers:\n  - {name: A, groups: 3+2+2+4, process: {rotate: {by: 1}}}\n"},
		{Next, "length: 30 bars\nlayers:\n  - {name: A, groups: 3+2+2+4, offset: 1, process: {rotate: {by: 1}}}\n", "A has a process but has an offset; one that is uncut and has no exceptions would serve",
			"length: 30 bars\nlayers:\n  - {name: A, groups: 3+2+2+4, process: {rotate: {by: 1}}}\n"},
		{Next, "length: 99 bars\nlayers:\n  - {name: A, groups: 3+2+2+4, process: {rotate: {by: 1, after: 6}}}\n", "a change after each five cycles or fewer would serve",
			"length: 99 bars\nlayers:\n  - {name: A, groups: 3+2+2+4, process: {rotate: {by: 1, after: 5}}}\n"},
		{Next, "length: 2 bars\nlayers:\n  - {name: A, groups: 3+2+2+4, process: {rotate: {by: 1}}}\n", "a longer section would serve",
			"length: 9 bars\nlayers:\n  - {name: A, groups: 3+2+2+4, process: {rotate: {by: 1}}}\n"},
		{Realign, "length: 9 bars\nlayers:\n  - {name: A, groups: 3+5}\n  - {name: B, groups: 4+4}\n", "the loops meet in every bar; loops that drift apart for longer would serve",
			"length: 9 bars\nlayers:\n  - {name: A, groups: 3+5}\n  - {name: B, groups: 3+2}\n"},
		{Realign, "length: 3 bars\nlayers:\n  - {name: A, groups: 3+5}\n  - {name: B, groups: 3+2}\n", "nor elsewhere in the section; a longer one, or loops that meet sooner, would serve",
			"length: 9 bars\nlayers:\n  - {name: A, groups: 3+5}\n  - {name: B, groups: 3+2}\n"},
		{Realign, "length: 9 bars\nlayers:\n  - {name: A, groups: 4+2}\n  - {name: B, groups: 4, offset: 1}\n", "the loops never begin together; another offset, or loops of other lengths, would serve",
			"length: 9 bars\nlayers:\n  - {name: A, groups: 4+2}\n  - {name: B, groups: 4}\n"},
		{Realign, "length: 9 bars\nlayers:\n  - {name: A, line: \"x 3, rest 1/4, x 2\"}\n", "it needs layers whose loops play from start to end; A is a free line", "length: 9 bars\nlayers:\n  - {name: A, groups: 3}\n"},
		{Groups, "length: 9 bars\nlayers:\n" + bell, "the loop of Bell comes round within bar 1; one of a bar or more would serve", "length: 9 bars\nlayers:\n  - {name: Bell, groups: 2+3+4}\n"},
		{Beam, "pulse: 1/4\nlength: 9 bars\nlayers:\n  - {name: Bell, groups: 2+3, strike: all}\n", "a pulse of eighths or shorter would serve", "pulse: 1/8\nlength: 9 bars\nlayers:\n  - {name: Bell, groups: 2+3, strike: all}\n"},
		{Composite, "length: 9 bars\nlayers:\n" + bell, "it needs two layers with loops", "length: 9 bars\nlayers:\n" + bell + "  - {name: C, groups: 3+4}\n"},
		{Composite, "length: 80 bars\nlayers:\n" + bell + "  - {name: C, groups: 3+4, enters: bar 65}\n", "it needs two layers with loops; C enters after bar 64",
			"length: 80 bars\nlayers:\n" + bell + "  - {name: C, groups: 3+4, enters: bar 60}\n"},
		{Composite, "length: 9 bars\nlayers:\n" + bell + "  - {name: C, groups: 3+5, enters: bar 9}\n", "a layer that enters earlier or leaves later would serve",
			"length: 9 bars\nlayers:\n" + bell + "  - {name: C, groups: 3+5, enters: bar 6}\n"}, // Bell, from 0 by fives, and bar 6 at 40
	} {
		_, why := one(t, c.kind, 1, "meter: 4/4\n"+c.without)
		assert.Contains(t, why, c.why)
		_, why = one(t, c.kind, 1, "meter: 4/4\n"+c.with)
		assert.Empty(t, why, c.with)
	}
}
