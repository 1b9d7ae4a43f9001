package score_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/score"
)

// Each process that a spec can say, and score/find can name, is worked out by
// the naive score too: by itself, with another after it, and started over with
// the realignments.
func TestProcessesAgainstTheNaiveScore(t *testing.T) {
	all := []string{
		"{grow: {group: 1, by: 1, from: 2, stop-when-empty: yes}}", "{grow: {group: 2, by: 1, from: none, after: 3, stop-when-empty: yes}}",
		"{grow: {group: 1, by: -1, from: 3, stop-when-empty: yes, after: 2}}",
		"{rotate: {by: 1}}", "{rotate: {by: -1, after: 2}}", "{shift: {by: 2}}", "{shift: {by: -1, after: 2}}",
		"{append: {size: 2, after: 3}}", "{retrograde: {on: even}}", "{retrograde: {on: every 3rd}}",
	}
	for i, one := range all {
		for _, two := range append([]string{""}, all[:i]...) {
			for _, until := range []string{"", ", until: realignment}"} {
				processes := one
				if two != "" {
					processes += ", " + two
				}
				if until != "" {
					processes = strings.ReplaceAll(processes, "}}", "}"+until)
				}
				text := fmt.Sprintf("title: Lock\nmeter: 4/4\npulse: 1/8\nlength: 20 bars\nrealign: [Gate, Barge]\nlayers:\n"+
					"  - {name: Winch, instrument: marimba, groups: 3+2+2, process: [%s], pitches: C4 D4 E4}\n  - {name: Gate, groups: 3+3}\n  - {name: Barge, groups: 5+5+4}\n", processes)
				compare(t, read(t, text).Sections[0], text)
			}
		}
	}
}

// Where a rotation is turned round, the head falls on the group that is played first of
// the figure backwards: the 1 of 3+2+2+1, which is struck. By hand: even cycles are 3+1+2+2
// and 2+2+3+1 by turns, odd ones 3+2+2+1 and 2+1+3+2; so A's heads are at 0, 11, 19 and
// 31 of 32, and the first of them that is a number of fives is 75 = 2·32 + 11.
func TestHeadsThatAreTurnedRound(t *testing.T) {
	s := read(t, "title: Lock\nmeter: 4/4\nlength: 8 bars\nlayers:\n"+
		"  - {name: A, groups: 3+2+2+1, process: [{rotate: {by: 1}}, {retrograde: {on: even}}]}\n  - {name: C, groups: 5}\n").Sections[0]
	unit := s.Layers[0].Unit
	var heads []int64
	for c := range s.Cycles(0) {
		heads = append(heads, int64((c.Start+c.Head)/unit))
		assert.True(t, slices.ContainsFunc(c.Attacks, func(a score.Attack) bool { return a.At == c.Head }), "cycle %d", c.Index)
	}
	assert.Equal(t, []int64{0, 11, 19, 31, 32, 43, 51, 63}, heads)
	m := s.Meet([]int{0, 1}, false)
	assert.Equal(t, int64(75*unit), m.First.Int64())
	assert.Equal(t, int64(160*unit), m.Period.Int64())
	assert.False(t, m.Walked)
}
