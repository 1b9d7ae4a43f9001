package find

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/score/beat"
)

// A loop of which every pulse is struck ends one pulse into a group, inside a
// bar: 4+1 four times, then one pulse of the next; the bar goes on to pulse 24. What
// is left of the group must not sound on to the end of the bar.
func TestSpecStopsWhereTheListStops(t *testing.T) {
	l := durations(t, strings.Repeat("1 ", 21))
	for _, at := range []int{0, 4, 5, 9, 10, 14, 15, 19, 20} {
		l.Hits[at].Accent = true
	}
	ranked := Search(l, Options{})
	require.Equal(t, All, ranked[0].Strike, ranked[0].String())
	for name, c := range map[string]struct {
		end  beat.Span
		want string
	}{
		"in the bar":         {beat.Of(24, 8), "length: 21 pulses"},
		"with an empty bar":  {beat.Of(32, 8), "leaves: pulse 22"},
		"where the bar ends": {beat.Of(21, 8), "length: 21 pulses"},
	} {
		text, err := Plan{Title: "Lock", Meter: "4/4", Bar: beat.Of(1, 1), End: c.end}.Spec([]Found{{Name: "Lock", List: l, Ranked: ranked}})
		require.NoError(t, err)
		assert.Contains(t, text, c.want, name)
		again, _ := attacksOf(t, text)
		assert.Len(t, again, 21, "%s\n%s", name, text)
	}
}
