package task

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/layout/sheet"
	"tieover/score/spec/spectest"
)

// 4+3+2 gives a pulse a cycle from group 2 to group 1: 5+2+2, 6+1+2, 7+2.
func TestTheNextCycleByHand(t *testing.T) {
	made, left := Make(spectest.Read(t, text), Options{Level: 1, Only: []Kind{Next}})
	require.Empty(t, left, "Gong leaves after its fourth cycle")
	assert.Equal(t, []string{"groups of cycle 4: 7+2"}, made[0].Answer)

	_, left = Make(spectest.Read(t, strings.Replace(text, "leaves: bar 5", "leaves: bar 3", 1)), Options{Level: 1, Only: []Kind{Next}})
	assert.Equal(t, []Left{{Next, "Gong has not the 4 whole cycles that it takes; a longer section would serve"}}, left)

	_, left = Make(spectest.Read(t, "title: T\nmeter: 4/4\ntempo: 60\nlength: 20 bars\nlayers:\n  - name: Gong\n    groups: 4+3+2\n    process: {retrograde: {on: even}}\n"),
		Options{Level: 1, Only: []Kind{Next}})
	assert.Equal(t, []Left{{Next, "cycle 3 of Gong is one of those before it again; a loop of more groups would serve"}}, left)

	for _, c := range []struct {
		process, groups string
		cycle           int
	}{
		{"{grow: {group: 1, by: 1, from: 2}}", "7+2", 4}, // 5+2+2, 6+1+2, then group 2 is used up
		{"{grow: {group: 3, by: 2, from: none}}", "4+3+8", 4},
		{"{rotate: {by: 1}}", "2+4+3", 3},             // 3+2+4; cycle 4 would be the first again
		{"{shift: {by: 1}}", "2+4+3 from pulse 2", 4}, // three pulses later: the 3 begins two pulses before the edge, the 2 a pulse after it
		{"{append: {size: 2}}", "4+3+2+2+2+2", 4},
	} {
		length := "20 bars"
		if strings.Contains(c.process, "from: 2") {
			length = "36 pulses" // four cycles; later nobody can give
		}
		p := spectest.Read(t, "title: T\nmeter: 4/4\ntempo: 60\nlength: "+length+"\nlayers:\n  - name: Gong\n    groups: 4+3+2\n    process: "+c.process+"\n")
		made, left := Make(p, Options{Level: 1, Only: []Kind{Next}})
		require.Empty(t, left, c.process)
		assert.Equal(t, []string{fmt.Sprintf("groups of cycle %d: %s", c.cycle, c.groups)}, made[0].Answer, c.process)
		require.Len(t, made[0].Given.Rows, c.cycle)
		assert.Empty(t, made[0].Given.Rows[c.cycle-1].Signs)
		if given := made[0].Given.Sheet; assert.NotNil(t, given, c.process) {
			var signatures []string
			for b := range given.Parts[0].Bars() {
				signatures = append(signatures, b.Measure.Signature.String())
			}
			assert.NotContains(t, strings.Join(signatures, " "), "+", "a signature must not tell the groups")
			assert.Equal(t, signatures[c.cycle-2], signatures[c.cycle-1], "nor the length of the next cycle")
		}
		if s := made[0].Solution.Sheet; assert.NotNil(t, s, c.process) {
			assert.Equal(t, strings.Count(c.groups, "+")+1, attacksIn(s, c.cycle), c.process)
			assert.Zero(t, attacksIn(made[0].Given.Sheet, c.cycle))
		}
	}
}

// 2+2+1, a pulse earlier after every two cycles. In cycle 3 the first two begins on
// pulse 5 and lasts into cycle 4, whose pulse 1 is its second; nothing was struck before
// pulse 1 of cycle 3 that could last into it. Cycle 6 would be cycle 5 again. The sizes
// of 3, 4 and 5 are the same: what differs is where the first of them begins.
func TestAShiftIsHeldIntoTheNextCycle(t *testing.T) {
	e, why := one(t, Next, 1, "meter: 5/8\nlength: 20 bars\nlayers:\n  - {name: A, groups: 2+2+1, process: {shift: {by: -1, after: 2}}}\n")
	require.Empty(t, why)
	var got []string
	for _, row := range e.Solution.Rows {
		got = append(got, strings.Join(row.Signs, " ")+"   "+row.Tail)
	}
	assert.Equal(t, []string{
		"X 2 x 2 x   2+2+1 from pulse 1",
		"X 2 x 2 x   2+2+1 from pulse 1",
		". x 2 x X   2+1+2 from pulse 2",
		"2 x 2 x X   2+1+2 from pulse 2",
		"x 2 x X 2   2+1+2 from pulse 1",
	}, got)
	assert.Equal(t, []string{"groups of cycle 5: ____________ from pulse ____"}, e.Blanks)
	assert.Equal(t, []string{"groups of cycle 5: 2+1+2 from pulse 1"}, e.Answer)
	assert.Contains(t, e.Prompt, "its groups, from the pulse on which the first begins, and its row.")
}

func attacksIn(s *sheet.Sheet, bar int) int {
	n := 0
	for b := range s.Parts[0].Bars() {
		if b.Number == bar {
			for _, e := range b.Measure.Voices[0].Events {
				if note, ok := e.(*sheet.Note); ok && !note.TieIn {
					n++
				}
			}
		}
	}
	return n
}
