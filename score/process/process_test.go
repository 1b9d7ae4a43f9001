package process

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// of makes a pattern of sizes; a negative one is a silent group.
func of(sizes ...int) []Group {
	var groups []Group
	for i, size := range sizes {
		groups = append(groups, Group{Size: max(size, -size), Spec: i + 1, Blank: size < 0})
	}
	return groups
}

// sizes lists them as they follow each other.
func sizes(s Shape) (list []int) {
	for _, g := range s.Played() {
		list = append(list, g.Size)
	}
	return list
}

// cycles writes so many cycles of the first pattern as "3+2", in played order; a
// silent group is "(2)", a shift "3+2>1", the head, where it is not at the start, "3+2@3".
func cycles(st *State, n int) string {
	var all []string
	for range n {
		s := st.Shape(0)
		var sizes []string
		for _, g := range s.Played() {
			if g.Blank {
				sizes = append(sizes, fmt.Sprintf("(%d)", g.Size))
				continue
			}
			sizes = append(sizes, fmt.Sprint(g.Size))
		}
		text := strings.Join(sizes, "+")
		if s.Shift > 0 {
			text += fmt.Sprintf(">%d", s.Shift)
		}
		if s.Head > 0 {
			text += fmt.Sprintf("@%d", s.Head)
		}
		all = append(all, text)
		st.Step()
	}
	return strings.Join(all, " ")
}

// Worked by hand from the package's definitions, each rule and each pair that
// meet in one cycle.
func TestCycles(t *testing.T) {
	grow := Rule{Kind: Grow, Group: 1, By: 1, From: 2, After: 1}
	for _, c := range []struct {
		name    string
		pattern []Group
		rules   []Rule
		want    string
	}{
		{"no rule", of(3, 2), nil, "3+2 3+2 3+2"},
		{"a group takes from the next", of(3, 2), []Rule{grow}, "3+2 4+1 5 5"},
		{"then from the one after", of(3, 2, 2), []Rule{grow}, "3+2+2 4+1+2 5+2 6+1 7 7"},
		{"and round to the first", of(2, 3, 2), []Rule{{Kind: Grow, Group: 2, By: 2, From: 3, After: 1}}, "2+3+2 2+5 7 7"},
		{"two givers in one step", of(1, 1, 1, 1), []Rule{{Kind: Grow, Group: 1, By: 2, From: 2, After: 1}}, "1+1+1+1 3+1 3+1"}, // 1 left, 2 asked: spent
		{"the target among the givers is passed over", of(2, 1, 2), []Rule{{Kind: Grow, Group: 2, By: 2, From: 1, After: 1}}, "2+1+2 3+2 5"},
		{"every third pass", of(3, 2), []Rule{{Kind: Grow, Group: 1, By: 1, From: 2, After: 3}}, "3+2 3+2 3+2 4+1 4+1 4+1 5"},
		{"longer for ever", of(3, 2), []Rule{{Kind: Grow, Group: 2, By: 1, After: 1}}, "3+2 3+3 3+4"},
		{"a group gives to another", of(3, 2), []Rule{{Kind: Grow, Group: 1, By: -1, From: 2, After: 1}}, "3+2 2+3 1+4 5 5"},
		{"the last gift is what is left", of(3, 2), []Rule{{Kind: Grow, Group: 1, By: -2, From: 2, After: 1}}, "3+2 1+4 5 5"},
		{"a group gives to the first", of(3, 2), []Rule{{Kind: Grow, Group: 2, By: -1, From: 1, After: 1}}, "3+2 4+1 5 5"},
		{"shorter until it is gone", of(3, 2), []Rule{{Kind: Grow, Group: 2, By: -1, After: 1}}, "3+2 3+1 3 3"},
		{"a silent group gives", of(3, -2), []Rule{grow}, "3+(2) 4+(1) 5"},
		{"rotation", of(3, 2, 1), []Rule{{Kind: Rotate, By: 1, After: 1}}, "3+2+1 2+1+3@3 1+3+2@1 3+2+1"},
		{"rotation back", of(3, 2, 1), []Rule{{Kind: Rotate, By: -1, After: 2}}, "3+2+1 3+2+1 1+3+2@1 1+3+2@1 2+1+3@3"},
		{"rotation by more than there are", of(3, 2), []Rule{{Kind: Rotate, By: 3, After: 1}}, "3+2 2+3@2 3+2"},
		{"shift", of(3, 2), []Rule{{Kind: Shift, By: 2, After: 1}}, "3+2 3+2>2@2 3+2>4@4 3+2>1@1"},
		{"shift earlier", of(3, 2), []Rule{{Kind: Shift, By: -1, After: 1}}, "3+2 3+2>4@4 3+2>3@3"},
		{"retrograde", of(3, 2), []Rule{{Kind: Retrograde, After: 2}}, "3+2 2+3 3+2 2+3"},
		{"retrograde of every third", of(3, 2), []Rule{{Kind: Retrograde, After: 3}}, "3+2 3+2 2+3 3+2 3+2 2+3"},
		// The figure backwards begins with its end: 2 of 3+2 at once, and where a rotation has
		// brought it, 1 of 3+2+2+1 at 3 of 3+1+2+2 and at 7 of 2+2+3+1.
		{"rotation and retrograde", of(3, 2, 2, 1), []Rule{{Kind: Rotate, By: 1, After: 1}, {Kind: Retrograde, After: 2}},
			"3+2+2+1 3+1+2+2@3 2+1+3+2@3 2+2+3+1@7 3+2+2+1 3+1+2+2@3"},
		{"rotation, retrograde and shift", of(3, 2, 1), []Rule{{Kind: Rotate, By: 1, After: 2}, {Kind: Retrograde, After: 3}, {Kind: Shift, By: 2, After: 2}},
			"3+2+1 3+2+1 3+1+2>2@5 2+1+3>2@5"},
		{"turned twice is not turned", of(3, 2), []Rule{{Kind: Retrograde, After: 2}, {Kind: Retrograde, After: 3}}, "3+2 2+3 2+3 2+3 3+2 3+2"},
		{"appended groups", of(3, 2), []Rule{{Kind: Append, Size: 1, After: 2}}, "3+2 3+2 3+2+1 3+2+1 3+2+1+1"},
		{"rotation goes on through an appended group", of(3, 2), []Rule{{Kind: Append, Size: 1, After: 1}, {Kind: Rotate, By: 1, After: 1}}, "3+2 2+1+3@3 1+1+3+2@2"},
		{"rules apply in order", of(3, 2), []Rule{{Kind: Rotate, By: 1, After: 1}, {Kind: Append, Size: 1, After: 1}}, "3+2 2+1+3@3 1+1+3+2@2"},
		// Group 2, with which the third cycle would begin, is used up: group 3 is the next.
		{"the first group is used up", of(3, 1, 2), []Rule{{Kind: Rotate, By: 1, After: 1}, grow}, "3+1+2 2+4@2 5+1"},
		{"group 1 is used up: no head but the start", of(1, 3), []Rule{{Kind: Grow, Group: 2, By: 1, From: 1, After: 1}}, "1+3 4"},
		// Group 2, with which the second cycle begins, comes to the first place.
		{"a group before the first is used up", of(1, 3, 2), []Rule{{Kind: Rotate, By: 1, After: 1}, {Kind: Grow, Group: 2, By: 1, From: 1, After: 1}}, "1+3+2 4+2 1+5"},
		{"all are used up, and others come", of(2), []Rule{{Kind: Grow, Group: 1, By: -2, After: 1}, {Kind: Append, Size: 3, After: 1}, {Kind: Append, Size: 4, After: 1}}, "2 3+4"},
		{"a shift in a cycle that grows", of(2, 1), []Rule{{Kind: Shift, By: 2, After: 1}, {Kind: Grow, Group: 1, By: 1, After: 1}}, "2+1 3+1>2@2 4+1>4@4 5+1"},
		// An appended group is numbered past those that are gone: rule 2 has no group 2 any more.
		{"numbers are not used again", of(1, 1), []Rule{{Kind: Grow, Group: 1, By: 1, From: 2, After: 1}, {Kind: Append, Size: 3, After: 1}}, "1+1 2+3 3+2+3"},
	} {
		assert.Equal(t, c.want, cycles(New([][]Group{c.pattern}, c.rules), len(strings.Fields(c.want))), c.name)
	}
}

// Appending is counted from the groups that there were.
func TestAppendedGroupsAreNumbered(t *testing.T) {
	st := New([][]Group{of(1, 2)}, []Rule{{Kind: Grow, Group: 2, By: -2, After: 1}, {Kind: Append, Size: 3, After: 1}})
	st.Step() // group 2 is gone: one group is left, and the next is 2 again
	assert.Equal(t, []Group{{Size: 1, Spec: 1}, {Size: 3, Spec: 2}}, st.Shape(0).Groups)
	st = New([][]Group{of(2, 1, 1)}, []Rule{{Kind: Grow, Group: 1, By: -2, After: 2}, {Kind: Append, Size: 3, After: 2}})
	st.Step()
	st.Step() // group 1 is gone, 2 and 3 are left: the new one is 4
	assert.Equal(t, []Group{{Size: 1, Spec: 2}, {Size: 1, Spec: 3}, {Size: 3, Spec: 4}}, st.Shape(0).Groups)
	st = New([][]Group{of(2)}, []Rule{{Kind: Grow, Group: 1, By: -2, After: 1}, {Kind: Append, Size: 3, After: 1}})
	st.Step() // nothing is left: the new one is the first
	assert.Equal(t, []Group{{Size: 3, Spec: 1}}, st.Shape(0).Groups)
}

// A cycle that only loses ends with nothing, and stays so; one whose growth finds
// no giver stays as it is. Both are spent unless the rule holds, and the first is
// empty even then.
func TestUsedUp(t *testing.T) {
	for _, hold := range []bool{false, true} {
		st := New([][]Group{of(2)}, []Rule{{Kind: Grow, Group: 1, By: -1, After: 1, Hold: hold}})
		assert.Equal(t, "2 1  ", cycles(st, 4))
		assert.Zero(t, st.Shape(0).Pulses)
		_, spent := st.Spent()
		assert.Equal(t, !hold, spent)

		st = New([][]Group{of(1, 1)}, []Rule{{Kind: Rotate, By: 1, After: 1}, {Kind: Grow, Group: 1, By: 1, From: 2, After: 1, Hold: hold}})
		assert.Equal(t, "1+1", cycles(st, 1))
		_, spent = st.Spent()
		assert.False(t, spent)
		assert.Equal(t, "2 2 2", cycles(st, 3))
		rule, spent := st.Spent()
		assert.Equal(t, !hold, spent)
		if spent {
			assert.Equal(t, 1, rule)
		}
		st.Reset()
		_, spent = st.Spent()
		assert.False(t, spent)
		assert.Equal(t, "1+1", cycles(st, 1))
	}
	// It is spent by the step that takes the last pulse, not before. Rotation has then
	// nothing to move.
	st := New([][]Group{of(2)}, []Rule{{Kind: Grow, Group: 1, By: -1, After: 1}, {Kind: Rotate, By: 1, After: 1}})
	for _, want := range []bool{false, false, true, true} {
		_, spent := st.Spent()
		assert.Equal(t, want, spent, "cycle %d", st.Passes())
		st.Step()
	}
	// What is asked of a group that is not there any more is spent too.
	st = New([][]Group{of(1, 2, 3)}, []Rule{{Kind: Grow, Group: 2, By: -2, After: 1}, {Kind: Grow, Group: 3, By: -1, From: 2, After: 1}})
	st.Step()
	rule, spent := st.Spent()
	assert.True(t, spent)
	assert.Equal(t, 1, rule)
	assert.Equal(t, of(1, 2, 3)[:1], st.Shape(0).Groups[:1])
	assert.Equal(t, 3, st.Shape(0).Groups[1].Size, "nothing was given")
}

// Two patterns change alike, and one may be spent before the other.
func TestPatternsByTurns(t *testing.T) {
	st := New([][]Group{of(3, 2), of(2, 1)}, []Rule{{Kind: Grow, Group: 1, By: 1, From: 2, After: 1}, {Kind: Rotate, By: 1, After: 2}})
	st.Step()
	assert.Equal(t, []int{4, 1}, sizes(st.Shape(0)))
	assert.Equal(t, []int{3}, sizes(st.Shape(1)))
	_, spent := st.Spent()
	assert.False(t, spent)
	st.Step()
	assert.Equal(t, []int{5}, sizes(st.Shape(0)))
	assert.Equal(t, []int{3}, sizes(st.Shape(1)), "it stays")
	rule, spent := st.Spent()
	assert.True(t, spent)
	assert.Zero(t, rule)
}

// Skipping cycles is stepping through them where no size changes.
func TestSkip(t *testing.T) {
	rules := []Rule{{Kind: Rotate, By: 2, After: 3}, {Kind: Shift, By: -3, After: 2}, {Kind: Retrograde, After: 4}}
	for begun := range 7 {
		for n := range 13 {
			far, near := New([][]Group{of(3, 2, 1, 1, 4)}, rules), New([][]Group{of(3, 2, 1, 1, 4)}, rules)
			for range begun {
				far.Step()
				near.Step()
			}
			far.Skip(n)
			for range n {
				near.Step()
			}
			assert.Equal(t, near, far)
		}
	}
}

func TestIsHome(t *testing.T) {
	for _, c := range []struct {
		name         string
		pattern      []Group
		rules        []Rule
		cycles       int // until all comes again; 0: never
		heads        int // until rotation and shift do
		still, after bool
	}{
		{"no rule", of(3, 2), nil, 1, 1, true, true},
		{"rotation of three", of(3, 2, 1), []Rule{{Kind: Rotate, By: 1, After: 1}}, 3, 3, true, true},
		{"by two, every other", of(3, 2, 1), []Rule{{Kind: Rotate, By: 2, After: 2}}, 6, 6, true, true},
		{"by one, every third", of(3, 2), []Rule{{Kind: Rotate, By: 1, After: 3}}, 6, 6, true, true},
		{"shift of five by two", of(3, 2), []Rule{{Kind: Shift, By: 2, After: 1}}, 5, 5, true, true},
		{"retrograde", of(3, 2), []Rule{{Kind: Retrograde, After: 2}}, 2, 1, true, true},
		{"both", of(3, 2, 1), []Rule{{Kind: Rotate, By: 1, After: 1}, {Kind: Retrograde, After: 2}}, 6, 6, true, true},
		{"growth", of(3, 2), []Rule{{Kind: Grow, Group: 1, By: 1, From: 2, After: 1}}, 0, 1, false, false},
		{"growth that holds", of(3, 2), []Rule{{Kind: Grow, Group: 1, By: 1, From: 2, After: 1, Hold: true}}, 0, 1, false, true},
		{"rotation, and growth that holds", of(3, 2), []Rule{{Kind: Rotate, By: 1, After: 1}, {Kind: Grow, Group: 1, By: 1, From: 2, After: 1, Hold: true}}, 0, 2, false, true},
		{"loss that holds", of(1), []Rule{{Kind: Grow, Group: 1, By: -1, After: 1, Hold: true}}, 0, 1, false, true},
		{"growth and back", of(3, 2), []Rule{{Kind: Grow, Group: 1, By: 1, After: 1}, {Kind: Grow, Group: 1, By: -1, After: 1}}, 1, 1, false, false},
		{"appending", of(3, 2), []Rule{{Kind: Append, Size: 1, After: 1}}, 0, 1, false, false},
	} {
		st := New([][]Group{c.pattern}, c.rules)
		assert.Equal(t, c.still, st.IsStill(), c.name)
		assert.True(t, st.IsHome() && st.HeadsAreHome(), c.name)
		home, heads := 0, 0
		for n := 1; n <= 12; n++ {
			st.Step()
			assert.Equal(t, n+1, st.Passes())
			if st.IsHome() && home == 0 {
				home = n
			}
			if st.HeadsAreHome() && heads == 0 {
				heads = n
			}
		}
		assert.Equal(t, c.cycles, home, c.name)
		assert.Equal(t, c.heads, heads, c.name)
		assert.Equal(t, c.after, st.IsStill(), c.name)
	}
}

// A clone goes on by itself, and neither changes what it was made of.
func TestClone(t *testing.T) {
	pattern := of(3, 2)
	st := New([][]Group{pattern}, []Rule{{Kind: Grow, Group: 1, By: 1, From: 2, After: 1}, {Kind: Append, Size: 7, After: 1}, {Kind: Shift, By: 3, After: 1}})
	st.Step()
	own := st.Clone()
	assert.Equal(t, "4+1+7>3@3 5+7+7>6@6", cycles(own, 2))
	assert.Equal(t, "4+1+7>3@3", cycles(st, 1))
	assert.EqualValues(t, 6, st.Moved())
	assert.EqualValues(t, 9, own.Moved())
	assert.Equal(t, of(3, 2), pattern)
}

func TestSizes(t *testing.T) {
	st := New([][]Group{of(3, 2, 1)}, []Rule{{Kind: Rotate, By: 1, After: 1}, {Kind: Retrograde, After: 2}})
	assert.Equal(t, []int{3, 2, 1}, sizes(st.Shape(0)))
	st.Step()
	s := st.Shape(0)
	assert.Equal(t, []int{3, 1, 2}, sizes(s), "2 1 3 turned round")
	assert.True(t, s.Backwards)
	assert.Equal(t, []int{2, 1, 3}, []int{s.Groups[0].Size, s.Groups[1].Size, s.Groups[2].Size})
	assert.EqualValues(t, 6, s.Pulses)
	assert.Equal(t, Shape{Groups: of(2, -3), Pulses: 5}, Plain(of(2, -3)))
}

// Shapes play alike if the same sizes follow each other, whatever their numbers,
// heads and shifts are.
func TestPlaysLike(t *testing.T) {
	plain := Plain(of(3, 2, 2))
	turned := Shape{Groups: of(2, 2, 3), Pulses: 7, Backwards: true, Shift: 4}
	assert.True(t, plain.PlaysLike(turned))
	assert.True(t, turned.PlaysLike(plain))
	for _, other := range [][]Group{of(3, 2, 1), of(2, 3, 2), of(3, 2), of(3, 2, 2, 1), nil} {
		assert.False(t, plain.PlaysLike(Plain(other)), "%v", other)
	}
}
