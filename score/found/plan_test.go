package found

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/score/beat"
	"tieover/score/find"
	"tieover/score/spec"
)

// durations makes a list of eighths: "3 r2" is a sound of 3 and a silence of 2.
func durations(t *testing.T, text string) *find.List {
	t.Helper()
	var items []find.Item
	for _, word := range strings.Fields(text) {
		digits, blank := strings.CutPrefix(word, "r")
		n, err := strconv.ParseInt(digits, 10, 64)
		require.NoError(t, err)
		items = append(items, find.Item{Size: n, Blank: blank})
	}
	l, err := find.FromDurations(items, beat.Plain(beat.Of(1, 8)))
	require.NoError(t, err)
	return l
}

// onsetsOf lists when a spec of one layer sounds.
func onsetsOf(t *testing.T, text string) (all []beat.Span) {
	t.Helper()
	p, problems := spec.Read([]spec.File{{Name: "spec.yaml", Text: []byte(text)}})
	require.Empty(t, problems, text)
	for at := range p.Sections[0].Attacks(0) {
		all = append(all, p.Grid.Span(at))
	}
	return all
}

// A loop of which every pulse is struck ends one pulse into a group, inside a
// bar: 4+1 four times, then one pulse of the next; the bar goes on to pulse 24. What
// is left of the group must not sound on to the end of the bar.
func TestSpecStopsWhereTheListStops(t *testing.T) {
	l := durations(t, strings.Repeat("1 ", 21))
	for _, at := range []int{0, 4, 5, 9, 10, 14, 15, 19, 20} {
		l.Hits[at].Accent = true
	}
	ranked := find.Search(l, find.Options{})
	require.Equal(t, find.All, ranked[0].Loop().Strike, ranked[0].String())
	for name, c := range map[string]struct {
		end  beat.Span
		want string
	}{
		"in the bar":         {beat.Of(24, 8), "length: 21 pulses"},
		"with an empty bar":  {beat.Of(32, 8), "leaves: pulse 22"},
		"where the bar ends": {beat.Of(21, 8), "length: 21 pulses"},
	} {
		text, err := Plan{Title: "Lock", Meter: "4/4", Bar: beat.Of(1, 1), End: c.end}.Spec([]Layer{{Name: "Lock", List: l, Ranked: ranked}})
		require.NoError(t, err)
		assert.Contains(t, text, c.want, name)
		again := onsetsOf(t, text)
		assert.Len(t, again, 21, "%s\n%s", name, text)
	}
}

// A group that gets shorter is used up in the silence after the list: 3, 2 and 1
// of 7, 6 and 5 pulses, and the score goes on to pulse 40. The layer must leave
// before that, for a spec may not use a cycle up.
func TestSpecLeavesBeforeACycleIsUsedUp(t *testing.T) {
	l := durations(t, "6 r4 5 r4 4 r4 3 r4 2 r4 1")
	ranked := find.Search(l, find.Options{})
	require.Equal(t, "6+rest 4 (10 pulses), 6 times, group 1 loses 1 each time", ranked[0].String())
	text, err := Plan{Title: "Lock", Meter: "4/4", Bar: beat.Of(1, 1), End: beat.Of(80, 8)}.Spec([]Layer{{Name: "Lock", List: l, Ranked: ranked}})
	require.NoError(t, err)
	assert.Contains(t, text, "leaves: pulse 42", "after 41 pulses")
	again := onsetsOf(t, text)
	assert.Len(t, again, 6)
}

// 2+6 grows to 6+2 and starts over after 40 eighths. In 5/4 that is every fourth
// bar, just when the layer meets the barline; in 4/4 it meets every bar.
func TestSpecSaysUntilRealignment(t *testing.T) {
	l := durations(t, "2 6 3 5 4 4 5 3 6 2 2 6 3 5 4 4 5 3 6 2 2 6 3 5 4 4 5 3 6 2")
	ranked := find.Search(l, find.Options{})
	for meter, want := range map[string]string{
		"5/4": "groups: 2+6\n    process: {grow: {group: 1, by: 1, from: 2}, until: realignment}\n",
		"4/4": "groups: [2+6, 3+5, 4+4, 5+3, 6+2]\n",
	} {
		bar := map[string]beat.Span{"5/4": beat.Of(5, 4), "4/4": beat.Of(1, 1)}[meter]
		text, err := Plan{Title: "Lock", Meter: meter, Bar: bar}.Spec([]Layer{{Name: "Lock", List: l, Ranked: ranked}})
		require.NoError(t, err)
		assert.Contains(t, text, want)
		again := onsetsOf(t, text)
		require.Len(t, again, 30, text)
		assert.Equal(t, beat.Of(82, 8), again[21], text)
	}
}
