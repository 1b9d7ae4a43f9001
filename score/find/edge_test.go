package find

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Where stretches meet that are alike there, by hand. In 3+2 six times and twos, the
// last 2 of the loop, attack 12 after 28 pulses, may be the first of the twos; in
// 3+2+2 both twos may, attacks 11 and 12 of four cycles; fours are nobody else's.
func TestWhereLikeStretchesMeet(t *testing.T) {
	for _, c := range []struct {
		before []int64
		cycles int
		after  int64
		want   string
	}{
		{[]int64{3, 2}, 6, 2, "then from attack 12 or 13 (pulse 29 or 31): 2 (2 pulses)"},
		{[]int64{3, 2, 2}, 4, 2, "then from attack 11 to 13 (pulse 25 to 29): 2 (2 pulses)"},
		{[]int64{3, 2, 2}, 4, 4, "then from attack 13 (pulse 29): 4 (4 pulses)"},
	} {
		var items []Item
		for _, size := range append(slices.Repeat(c.before, c.cycles), slices.Repeat([]int64{c.after}, 16)...) {
			items = append(items, Item{Size: size})
		}
		best := Search(listFrom(t, items), Options{})[0]
		require.Len(t, best.Stretches, 2, best)
		assert.Contains(t, best.String(), c.want)
	}
}

func TestACutOfOneGroupIsToldWithItsLoop(t *testing.T) {
	found := Search(durations(t, strings.TrimSpace(strings.Repeat("3 3 3 3 2 ", 3))), Options{})
	require.GreaterOrEqual(t, len(found), 2)
	assert.Equal(t, "3+3+3+3+2 (14 pulses), 3 times", found[0].String())
	assert.True(t, found[1].IsCutOf(found[0]))
	assert.Equal(t, "3s, starting over every 14 pulses", found[1].CutText())
	assert.False(t, found[0].IsCutOf(found[1]))
}
