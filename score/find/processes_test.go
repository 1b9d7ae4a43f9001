package find

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/score/process"
)

// Several processes at once, and processes that start over, written out by hand
// from their definitions.
func TestSearchNamesSeveralProcesses(t *testing.T) {
	for _, c := range []struct{ list, want string }{
		// grow group 1 of 2+4+1 by 1 and start 1 group further on: 2 4 1, 4 1 3, 1 4 4, 5 4 1, 4 1 6, 1 7 4
		{"2 4 1 4 1 3 1 4 4 5 4 1 4 1 6 1 7 4 8 4 1", "2+4+1 (7 pulses), 7 times, group 1 grows by 1 each time and starting 1 group further on each time"},
		// 1 4 2 grows its first group by 2 each time, and each second cycle is turned round
		{"1 4 2 2 4 3 5 4 2 2 4 7 9 4 2 2 4 11 13 4 2 2 4 15", "1+4+2 (7 pulses), 8 times, group 1 grows by 2 each time and each second time backwards"},
		// 3+2+1+rest 2 moves one pulse later each time, and each second cycle is turned
		// round first: attacks at 0 3 5, then 2 3 5 and one later 3 4 6, 2 5 7, 0 5 6,
		// 1 4 7, 0 2 7, 1 3 6, 1 2 4. Where two meet at an edge the first is cut short.
		{"3 2 1 r5 1 2 3 r1 3 2 1 3 r2 1 2 r1 1 r2 3 1 2 3 r2 1 r1 2 1 r2 3 1 2 3",
			"3+2+1+rest 2 (8 pulses), 8 times, moved 1 pulse later inside the cycle each time and each second time backwards"},
		// grows from 2+6 to 6+2 and starts over
		{"2 6 3 5 4 4 5 3 6 2 2 6 3 5 4 4 5 3 6 2 2 6 3 5 4 4 5 3 6 2", "2+6 (8 pulses), 15 times, group 1 takes 1 from group 2 each time, from the start again after every 5 cycles"},
		// The fifth is 6+2 turned round, or simply the first again: it is told as a loop.
		{"2 6 3 5 4 4 5 3 2 6 2 6 3 5 4 4 5 3 2 6 2 6 3 5 4 4 5 3 2 6", "2+6+3+5+4+4+5+3+2+6 (40 pulses), 3 times"},
		// 2+7+3, 3+6+3, 4+5+3 … each a pulse later in its 12: attacks at 0 2 9, then 1 4 10, 2 6 11, 3 8 0, 4 10 1, 5 0 2
		{"2 7 3 r1 3 6 3 r1 4 5 1 3 5 4 r1 3 6 2 2 3 7",
			"2+7+3 (12 pulses), 6 times, group 1 takes 1 from group 2 each time and moved 1 pulse later inside the cycle each time"},
		// 4+3+1, 5+3+1, 6+3+1 …, each a pulse earlier in its 8, 9, 10 …: attacks at 0 4 7, then 8 4 7, 8 4 7, 8 4 7 and so
		// on to 8 4 7 in 13 pulses, which the list's end cuts
		{"4 3 1 r4 3 1 5 3 1 6 3 1 7 3 1 8 3 1 5",
			"4+3+1 (8 pulses), 6 times, group 1 grows by 1 each time and moved 1 pulse ahead inside the cycle each time, last group cut to 5"},
		// 3+1+2+4 gets longer at its end, is moved, and each second time turned round: 3 1 2 4; 5 2 1 3 a pulse later; 3 1 2 6
		// two later; 7 2 1 3 three later; 3 1 2 8 four later; 9 2 1 3 five later
		{"3 1 2 4 r1 5 2 1 3 r1 3 1 2 4 3 7 2 1 r4 3 1 2 5 1 3 9 1",
			"3+1+2+4 (10 pulses), 6 times, group 4 grows by 1 each time and moved 1 pulse later inside the cycle each time and each second time backwards, last group cut to 1"},
		// 2+4+1: 2 4 1; 3 4 1 from its second group on and turned, 3 1 4; 4 4 1 from its third, 1 4 4; 5 4 1 turned …
		{"2 4 1 3 1 4 1 4 4 1 4 5 4 1 6 4 7 1 8 4 1 9 1 4",
			"2+4+1 (7 pulses), 8 times, group 1 grows by 1 each time and starting 1 group further on each time and each second time backwards"},
		// 3+2 takes on ones, starts a group further on each time, and each second time is turned: 3 2; 2 1 3 turned; 1 1 3 2; 3 2 1 1 1 turned …
		{"3 2 3 1 2 1 1 3 2 1 2 3 1 1 1 1 3 2 1 1 1 1 1 2 3 1 1 1 1 3 2 1 1 1 1",
			"3+2 (5 pulses), 7 times, starting 1 group further on each time and each second time backwards and one more group of 1 at the end each time"},
		// 3+2+2 a pulse later three times, then from the start: attacks at 0 3 5, 1 4 6, 2 5 0, 3 6 1
		{"3 2 2 r1 3 2 1 2 3 2 r1 2 3 1 3 2 2 r1 3 2 1 2 3 2 r1 2 3 1 3 2 2 r1 3 2 1 2 3 2 r1 2 3 1",
			"3+2+2 (7 pulses), 12 times, moved 1 pulse later inside the cycle each time, from the start again after every 4 cycles"},
		// gets longer and starts over
		{"3 1 4 1 5 1 6 1 3 1 4 1 5 1 6 1 3 1 4 1 5 1 6 1", "3+1 (4 pulses), 12 times, group 1 grows by 1 each time, from the start again after every 4 cycles"},
	} {
		l := durations(t, c.list)
		found := Search(l, Options{})
		assert.Equal(t, c.want, found[0].String())
		soundsLike(t, l, found, "")
	}
}

// A loop that ends with a silence has been heard twice in full when its second
// last sound is over.
func TestSearchHearsASilenceAtTheEnd(t *testing.T) {
	assert.Equal(t, "3+2+2+rest 2 (9 pulses), 2 times", Search(durations(t, "3 2 2 r2 3 2 2"), Options{})[0].String())
	assert.True(t, Search(durations(t, "3 2 2 r2 3 2"), Options{})[0].Literal)
	assert.True(t, Search(durations(t, "3 r2 3"), Options{})[0].Literal, "two strokes are no loop")
}

// A cycle of 3+1 takes on a 1 every second time, and its first group would take
// from that after the third: a spec cannot name a group that was appended, so
// nothing of the kind is said.
func TestSearchNamesNoAppendedGroup(t *testing.T) {
	l := durations(t, "3 1 3 1 3 1 1 4 1 4 1 1 4 1 1 1 5 1 1")
	for _, d := range Search(l, Options{}) {
		for _, p := range d.Loop().Process {
			assert.LessOrEqual(t, max(p.Group, p.From), len(d.Loop().Groups), d.String())
		}
	}
	s := &Stretch{Groups: []Item{{Size: 3}, {Size: 1}}, Process: []process.Rule{{Kind: process.Append, Size: 1, After: 2}}}
	ln := &line{items: l.Items(), hits: l.Hits, end: l.End}
	for _, p := range ln.suggestMore(s, 3) {
		assert.LessOrEqual(t, max(p.Group, p.From), 2)
	}
}
