package align

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/score/process"
)

// 3+2+2 eight times with one slip in the fourth cycle. The loop takes 3 + 15, the number of
// attacks (16 to 31) 9; an exception log2 of the attacks and gamma(2) 3 for where, then by the
// definitions: missing or too many 2 + gamma(1) 1, and an inner pulse of the group of three
// log2 2 = 1; again, left out and swapped 4. log2 of 23, 24 and 25 are 4.52, 4.58 and 4.64.
func TestBitsOfEachSlip(t *testing.T) {
	for name, c := range map[string]struct {
		cycle string
		want  Step
		bits  float64
	}{
		"a tap missing":     {"5 2", Step{Move: Missing, Attack: 9, Attacks: 1, Pulses: 5, Group: 0, Cycle: 3}, 27 + 4.52 + 3 + 3},
		"a tap too many":    {"1 2 2 2", Step{Move: TooMany, Attack: 9, Attacks: 2, Pulses: 3, Group: 0, Cycle: 3}, 27 + 4.64 + 3 + 3 + 1},
		"a group again":     {"3 3 2 2", Step{Move: Again, Attack: 9, Attacks: 1, Pulses: 3, Group: 0, Cycle: 3}, 27 + 4.64 + 3 + 4},
		"a group left out":  {"2 2", Step{Move: LeftOut, Attack: 9, Attacks: 1, Pulses: 2, Group: 0, Cycle: 3}, 27 + 4.52 + 3 + 4},
		"groups swapped":    {"2 3 2", Step{Move: Swapped, Attack: 9, Attacks: 2, Pulses: 5, Group: 0, Cycle: 3}, 27 + 4.58 + 3 + 4},
		"a group shorter":   {"2 2 2", Step{Move: Resized, Attack: 9, Attacks: 1, Pulses: 2, Group: 0, Cycle: 3}, 27 + 4.58 + 3 + 4},
		"two pulses longer": {"5 2 2", Step{Move: Resized, Attack: 9, Attacks: 1, Pulses: 5, Group: 0, Cycle: 3}, 27 + 4.58 + 3 + 6},
	} {
		res := Numbers(numbers(3, "3 2 2", 1, c.cycle, 4, "3 2 2"), Options{})
		require.NotEmpty(t, res.Readings, name)
		best := res.Readings[0]
		require.Len(t, best.Segments, 1, name)
		assert.Equal(t, []int{3, 2, 2}, best.Segments[0].Loop, name)
		assert.Equal(t, 1, best.Exceptions(), name)
		steps := best.Segments[0].Steps
		if i := slices.IndexFunc(steps, Step.IsException); assert.GreaterOrEqual(t, i, 0, name) {
			assert.Equal(t, c.want, steps[i], name)
		}
		assert.InDelta(t, c.bits, best.Bits, 0.01, name)
	}
}

// C(5, 2) = 10: log2 10 = 3.32, and gamma(3) = 3.
func TestBitsOfNumbersAndPlaces(t *testing.T) {
	for k, want := range map[int64]float64{0: 1, 1: 1, 2: 3, 3: 3, 4: 5, 7: 5, 8: 7, -8: 7, 1 << 40: 81} {
		assert.Equal(t, want, Gamma(k), k)
	}
	assert.Zero(t, WhereBits(5, 0), "nothing is to be said")
	assert.InDelta(t, 3.32+3, WhereBits(5, 2), 0.01)
	assert.InDelta(t, 6+3, WhereBits(64, 1), 1e-9)
	assert.InDelta(t, 7, WhereBits(7, 7), 1e-9, "one way only, and gamma(8)")
}

// A growth by one in the first of two groups takes 3 for its kind and 1 each for after, by, its
// sign, the group and none to take from; rotation by 5 (gamma 5) after 2 (gamma 3) and its sign
// 3 + 3 + 5 + 1; an appended 4: 3 + 1 + 5; each third cycle backwards: 3 + 3.
func TestBitsOfAProcess(t *testing.T) {
	for want, rule := range map[float64]process.Rule{
		8:  {Kind: process.Grow, Group: 1, By: 1, After: 1},
		12: {Kind: process.Rotate, By: -5, After: 2},
		9:  {Kind: process.Append, Size: 4, After: 1},
		6:  {Kind: process.Retrograde, After: 3},
	} {
		assert.Equal(t, want, ProcessBits(&rule))
	}
}

// 3+2 of which the first group grows: 3 2, 4 2, 5 2 … A process is heard when its third cycle
// begins, with the fifth attack.
func TestAProcessIsPlayed(t *testing.T) {
	grows := process.Rule{Kind: process.Grow, Group: 1, By: 1, After: 1}
	w, ok := newProcess([]int{3, 2}, grows, 8)
	require.True(t, ok)
	assert.Equal(t, []int{3, 2, 4, 2, 5, 2}, w.groups[:6])
	assert.Equal(t, []int{5, 2}, w.Groups(2))
	assert.Nil(t, w.Groups(1000), "past what is played")
	cycle, group, groups := w.cycleOf(5)
	assert.Equal(t, [3]int{2, 1, 2}, [3]int{cycle, group, groups})
	s := Segment{Loop: w.groups, Process: w}
	assert.Equal(t, 5, s.least())
	_, ok = newProcess([]int{3, 2}, grows, 3)
	assert.False(t, ok, "no two changes are heard")
	_, ok = newProcess([]int{3, 0}, grows, 8)
	assert.False(t, ok, "a cycle has no group of nothing")

	loses := process.Rule{Kind: process.Grow, Group: 1, By: -1, After: 1}
	w, ok = newProcess([]int{3, 2}, loses, 8)
	require.True(t, ok)
	assert.Equal(t, []int{3, 2, 2, 2, 1, 2, 2}, w.groups, "the cycle without the used-up group is the last")
}

// The same with the second group of the fourth cycle a pulse long. First cycle: kind 3, sizes 3
// and 3 after gamma(2) 3, two groups 3 and a bit each: 14; the process 8; 16 attacks 9. Where:
// log2 16 and gamma(2) 3; longer 2 + 1 + 1. It beats every loop.
func TestASlipInAProcess(t *testing.T) {
	res := Numbers(numbers(1, "3 2 4 2 5 2 6 3 7 2 8 2 9 2 10 2"), Options{})
	require.NotEmpty(t, res.Readings)
	best := res.Readings[0]
	require.NotNil(t, best.Process())
	assert.Equal(t, []int{3, 2}, best.Process().Cycle)
	assert.Equal(t, process.Rule{Kind: process.Grow, Group: 1, By: 1, After: 1}, best.Process().Rule)
	assert.InDelta(t, 3+14+8+9+4+3+4, best.Bits, 0.01)
	i := slices.IndexFunc(best.Segments[0].Steps, Step.IsException)
	assert.Equal(t, Step{Move: Resized, Attack: 7, Attacks: 1, Pulses: 3, Group: 7, Cycle: 3}, best.Segments[0].Steps[i])
}

// A limit of exceptions holds, and none means none: what is left without a loop has the
// nearest that goes all through.
func TestExceptionsAreLimited(t *testing.T) {
	places := numbers(3, "3 2 2", 1, "3 2 3", 4, "3 2 2")
	assert.Equal(t, 1, Numbers(places, Options{Exceptions: 1}).Readings[0].Exceptions())
	for _, r := range Numbers(places, Options{Exceptions: None}).Readings {
		assert.NotEqual(t, []int{3, 2, 2}, r.Segments[0].Loop)
	}
	assert.Nil(t, Numbers(places[:3], Options{}).Free, "three attacks are no row")
	assert.Nil(t, Numbers([]int64{0, 1, 2, 3 + farthest}, Options{}).Free, "too far apart")
	assert.NotNil(t, Numbers([]int64{0, 1, 2, 2 + farthest}, Options{}).Free)
}

// Loops are the same however they are turned, and none is another several times.
func TestLoopsAreTold(t *testing.T) {
	assert.Equal(t, rotationKey([]int{3, 2, 2}), rotationKey([]int{2, 3, 2}))
	assert.NotEqual(t, rotationKey([]int{3, 2, 4}), rotationKey([]int{3, 4, 2}))
	assert.False(t, isPrimitive([]int{3, 2, 3, 2}))
	assert.True(t, isPrimitive([]int{3, 2, 3}))
	// by a pulse; an edge moved; joined, from either group; split. 2+2 and 3+3 are one group.
	assert.ElementsMatch(t, [][]int{{4, 2}, {3, 1}, {4, 1}, {2, 3}, {4, 1}, {2, 3}, {5}, {5}, {1, 2, 2}, {2, 1, 2}, {3, 1, 1}}, loopVariants([]int{3, 2}))
}
