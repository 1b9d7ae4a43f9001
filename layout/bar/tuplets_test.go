package bar

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/layout/sheet"
	"tieover/score/beat"
)

// Ratios of two theory sheets ("Readable tuplets"): simple times take the
// largest power of two below, dotted ones three, six or twelve.
func TestNormals(t *testing.T) {
	for a, want := range map[int][2]int{2: {1, 3}, 3: {2, 3}, 4: {2, 3}, 5: {4, 3}, 6: {4, 3}, 7: {4, 6}, 8: {4, 6}, 9: {8, 6}, 11: {8, 6}, 12: {8, 6}, 13: {8, 12}, 15: {8, 12}} {
		assert.Equal(t, want, [2]int{normalOf(a, false), normalOf(a, true)}, "%d", a)
	}
}

// The fewest signs for so many units, the most equal, longest first: by hand.
func TestFewest(t *testing.T) {
	for n, want := range map[int][]int{1: {1}, 2: {2}, 3: {3}, 4: {4}, 5: {3, 2}, 6: {6}, 7: {4, 3}, 8: {8}, 9: {6, 3}, 10: {6, 4},
		11: {8, 3}, 12: {12}, 13: {12, 1}, 14: {8, 6}, 15: {12, 3}, 23: {16, 4, 3}} {
		assert.Equal(t, want, fewest(n), "%d", n)
	}
	for _, c := range []struct {
		at, n int
		is    []int
	}{{0, 5, []int{4, 1}}, {1, 3, []int{1, 2}}, {2, 6, []int{2, 4}}, {3, 5, []int{1, 4}}, {0, 8, []int{8}}, {6, 3, []int{2, 1}}, {4, 0, nil}} {
		assert.Equal(t, c.is, aligned(c.at, c.n), "%d from %d", c.n, c.at)
	}
	assert.Equal(t, []int{3, 15, 16, 16, 1}, []int{commonMultiple([]int{3}), commonMultiple([]int{3, 5}), commonMultiple([]int{3, 7}), commonMultiple([]int{3, 5, 7}), commonMultiple(nil)})
}

// Bars with tuplets, as their containers are laid: [memory] a tuplet for each
// container of the pulse, joined or halved only where ties are spared.
func TestContainers(t *testing.T) {
	for _, c := range []struct {
		why string
		d   drawing
		is  string
	}{
		{"a triplet each", drawing{meter: "2/4", step: "1/8 3:2", steps: "x=xx=x", groups: "3+3"}, "[3:2 q e] [3:2 q e]"},
		{"a sound of a whole triplet is plain", drawing{meter: "2/4", step: "1/8 3:2", steps: "x==xxx", groups: "3+3"}, "q [3:2 e e e]"},
		{"two triplets join over the beat", drawing{meter: "2/4", step: "1/8 3:2", steps: "x=x=x=", groups: "2+2+2"}, "[3:2 q q q]"},
		{"but not over the middle of 4/4", drawing{meter: "4/4", step: "1/8 3:2", steps: "x==x=x=x====", groups: "3+2+2+5"}, "q [3:2 q e]~[3:2 e q]~q"},
		{"rests inside, on their own grid", drawing{meter: "2/4", step: "1/8 3:2", steps: "x..x.x", groups: "3+3"}, "[3:2 e re re] [3:2 e re e]"},
		{"five in a quarter", drawing{meter: "1/4", step: "1/16 5:4", steps: "xx=x=", groups: "1+2+2"}, "[5:4 s e e]"},
		{"cut at the group's start", drawing{meter: "1/4", step: "1/16 5:4", steps: "x====", groups: "3+2"}, "q"},
		{"seven in a dotted beat", drawing{meter: "3/8", step: "1/16 7:6", steps: "xxxxxxx", groups: "7"}, "[7:6 s s s s s s s]"},
		{"four in a dotted beat", drawing{meter: "6/8", step: "1/8 4:3", steps: "xxxxx===", groups: "4+4"}, "[4:3 e e e e] q."},
		{"elsewhere four in three are dotted values", drawing{meter: "3/4", step: "1/8 4:3", steps: "xxx=xxx=", groups: "4+4"}, "s. s. s~e s. 32~s e."},
		{"in both of them", drawing{meter: "6/8", step: "1/8 4:3", steps: "xxxx=xxx", groups: "4+4"}, "[4:3 e e e e]~[4:3 e e e e]"},
		{"in the second alone", drawing{meter: "6/8", step: "1/8 4:3", steps: "x===xxxx", groups: "4+4"}, "q. [4:3 e e e e]"},
		{"in the first and the third", drawing{meter: "9/8", step: "1/8 4:3", steps: "xxxxx===xxxx", groups: "4+4+4"}, "[4:3 e e e e] q. [4:3 e e e e]"},
		{"not in additive bars", drawing{meter: "3+3/8", step: "1/8 4:3", steps: "xxxxx==="}, "s. 32~s s~32 s. q."},
		{"nor where two fill a dotted beat", drawing{meter: "6/8", step: "1/16 4:3", steps: "x=x=x=x=x======="}, "s. 32~s s~32 s. q."},
		{"beside five they are dotted values", drawing{meter: "6/8", step: "3/160", pulse: "1/8 4:3", steps: "x====x====x====x====x===x===x===x===x==="}, "s. 32~s s~32 s. [5:3 e e e e e]"},
		{"two in a dotted beat are dotted values", drawing{meter: "6/8", step: "1/16", steps: "x==x==x====="}, "e. e. q."},
		{"seven in a third of one", drawing{meter: "3/8", step: "1/56", pulse: "1/16 7:6", steps: "x======xxxxxxxx======"}, "e [7:4 32 32 32 32 32 32 32] e"},
		{"six are not twice three", drawing{meter: "1/4", step: "1/16 6:4", steps: "xxxxxx", groups: "6"}, "[6:4 s s s s s s]"},
		{"three fifths are one sign", drawing{meter: "1/4", step: "1/16 5:4", steps: "x==xx", groups: "3+1+1"}, "[5:4 e. s s]"},
		{"a rest of them is two", drawing{meter: "1/4", step: "1/16 5:4", steps: "...xx", groups: "3+1+1"}, "[5:4 re rs s s]"},
		{"a rest on its grid", drawing{meter: "1/4", step: "1/16 5:4", steps: "xx..x"}, "[5:4 s s re s]"},
		{"a rest off it", drawing{meter: "1/4", step: "1/16 5:4", steps: "x..xx"}, "[5:4 s rs rs s s]"},
		{"three sixths' rest is the other half", drawing{meter: "1/4", step: "1/16 6:4", steps: "xxx..."}, "[6:4 s s s] re"},
		{"three fifths' rest in a second beat", drawing{meter: "2/4", step: "1/16 5:4", steps: "x====...xx"}, "q [5:4 re rs s s]"},
		{"five in three off the beat", drawing{meter: "1/2", step: "1/40", pulse: "1/8 4:3", steps: "x====x==.........x=="}, "e [5:3 e re rq e]"},
		{"five sevenths: the longer first", drawing{meter: "1/4", step: "1/16 7:4", steps: "x====xx", groups: "7"}, "[7:4 e.~e s s]"},
		{"or where a group starts", drawing{meter: "1/4", step: "1/16 7:4", steps: "x====xx", groups: "2+5"}, "[7:4 e~e. s s]"},
		{"or two", drawing{meter: "1/4", step: "1/16 7:4", steps: "x====xx", groups: "2+3+2"}, "[7:4 e~e. s s]"},
		{"in a second tuplet too", drawing{meter: "2/4", step: "1/16 7:4", steps: "xxxxxxxx====xx", groups: "7+2+5"}, "[7:4 s s s s s s s] [7:4 e~e. s s]"},
		{"and its rests", drawing{meter: "2/4", step: "1/16 7:4", steps: "xxxxxxx.....xx"}, "[7:4 s s s s s s s] [7:4 rq rs s s]"},
		{"five in a dotted beat against a plain pulse", drawing{meter: "6/8", step: "1/8 5:3", pulse: "1/8", steps: "xxxxxx===="}, "[5:3 e e e e e] q."},
		{"threes against a plain pulse", drawing{meter: "1/4", step: "1/8 3:2", pulse: "1/8", steps: "xxx", groups: "3"}, "[3:2 e e e]"},
	} {
		assert.Equal(t, c.is, unbeamed(c.d.rhythm(t)), c.why)
	}
}

// A pickup of five eighths of 6/8 has the end of the first dotted beat and the second
// whole: four in that are a tuplet, while the first has no whole container. Two rests fill
// the end of a dotted beat (common practice).
func TestContainersOfAPickup(t *testing.T) {
	in := drawing{meter: "6/8", step: "1/8 4:3", steps: "xxxx"}.input(t)
	in.MetricGrid = in.MetricGrid.After(testGrid.Must(beat.Of(1, 8)))
	v := &in.Voices[0]
	for i := range v.Segments {
		v.Segments[i].At += testGrid.Must(beat.Of(1, 4))
	}
	w := Writer{NoteValues: NoteValues{Grid: testGrid}}
	m, _, err := w.Write(in)
	require.NoError(t, err)
	assert.Equal(t, "re re [4:3 e e e e]", unbeamed(sheet.Rhythm(&m.Voices[0])))
}

// Which number a tuplet shows: the ratio where it is not plain from the number.
func TestShownRatios(t *testing.T) {
	for step, want := range map[string]bool{"1/8 3:2": false, "1/16 5:4": false, "1/16 7:4": false, "1/32 9:8": true, "1/32 11:8": true} {
		d := drawing{meter: "1/4", step: step, steps: "xxxxxxxxxxx"[:pulseOf(t, step).Actual]}
		tuplet := d.measure(t).Voices[0].Events[0].(*sheet.Note).Tuplet
		assert.Equal(t, want, tuplet.ShowRatio, step)
		assert.True(t, tuplet.ShowNumber)
	}
	d := drawing{meter: "6/8", step: "1/8 2:3", steps: "xxxx"}
	assert.True(t, d.measure(t).Voices[0].Events[0].(*sheet.Note).Tuplet.ShowRatio, "in a dotted beat always")
}
