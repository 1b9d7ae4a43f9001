package find

import (
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/score/beat"
	"tieover/score/process"
)

// durations reads "3 2 r2": sizes, a rest with an r.
func durations(t testing.TB, text string) *List {
	t.Helper()
	var items []Item
	for _, word := range strings.Fields(text) {
		digits, blank := strings.CutPrefix(word, "r")
		n, err := strconv.ParseInt(digits, 10, 64)
		require.NoError(t, err)
		items = append(items, Item{n, blank})
	}
	l, err := FromDurations(items, beat.Plain(beat.Of(1, 8)))
	require.NoError(t, err)
	return l
}

// Every list is written out by hand from the definition of its process.
func TestSearchNamesThePattern(t *testing.T) {
	for _, c := range []struct{ list, want string }{
		{"3 2 2 3 2 2 3 2 2", "3+2+2 (7 pulses), 3 times"},
		{"3 2 2 3 2 2 3 2", "3+2+2 (7 pulses), 2 times and 5 pulses of the next"},
		// Threes that start over after 8 pulses take fewer bits, but nobody hears 3+3+2 so.
		{"3 3 2 3 3 2 3 3 2 3 3 2", "3+3+2 (8 pulses), 4 times"},
		{"3 3 2 3 3 2 3 3 1", "3+3+2 (8 pulses), 2 times and 7 pulses of the next, last group cut to 1"},
		// Threes that start over after 16 pulses take fewer bits, but are no grouping.
		{"3 3 3 3 3 1 3 3 3 3 3 1", "3+3+3+3+3+1 (16 pulses), 2 times"},
		{"1 2 3 4 5 6 7", "1 (1 pulse), 7 times, group 1 grows by 1 each time"},
		{"3 3 2 3 3 2 3 2", ""},
		{"1 2 3 1 2 3 1 2 3 1 2 3", "1+2+3 (6 pulses), 4 times"},
		{"2 2 2 2 2", "2 (2 pulses), 5 times"},
		{"3 r1 2 r2 3 r1 2 r2 3 r1 2", "3+rest 1+2+rest 2 (8 pulses), 3 times"},
		// 3+2+2 cut every 16 pulses is 3 2 2 3 2 2 2: as a plain loop of seven it takes 33 bits, as a cut one 36
		{"3 2 2 3 2 2 2 3 2 2 3 2 2 2 3 2 2 3 2 2 2", "3+2+2+3+2+2+2 (16 pulses), 3 times"},
		// cut every 32 pulses (32 = 4 x 7 + 4): 3+2+2 four times, then 3+1; here twice
		{"3 2 2 3 2 2 3 2 2 3 2 2 3 1 3 2 2 3 2 2 3 2 2 3 2 2 3 1", "3+2+2 (7 pulses), 10 times, starting over every 32 pulses"},
		// grow: 2+6, group 1 takes 1 from group 2
		{"2 6 3 5 4 4 5 3 6 2 7 1 8", "2+6 (8 pulses), 7 times, group 1 takes 1 from group 2 each time"},
		// grow from none
		{"2 2 3 2 3 3 2 4 3 2 5 3 2 6 3", ""},
		{"2 2 3 2 3 3 2 4 3 2 5 3", "2+2+3 (7 pulses), 4 times, group 2 grows by 1 each time"},
		// rotate: 3+2+2+1, one group further on each time
		{"3 2 2 1 2 2 1 3 2 1 3 2 1 3 2 2 3 2 2 1 2 2 1 3", "3+2+2+1 (8 pulses), 6 times, starting 1 group further on each time"},
		// retrograde on even cycles
		{"1 2 4 3 3 4 2 1 1 2 4 3 3 4 2 1 1 2 4 3", ""},
		// append a 2 each time
		{"3 1 3 1 2 3 1 2 2 3 1 2 2 2", "3+1 (4 pulses), 4 times, one more group of 2 at the end each time"},
	} {
		if c.want == "" {
			continue
		}
		t.Run(c.list, func(t *testing.T) {
			found := Search(durations(t, c.list), Options{})
			assert.Equal(t, c.want, found[0].String())
			for _, d := range found {
				t.Logf("%6.1f bits, saves %5.1f: %v", d.Bits(), d.Saved, d)
			}
		})
	}
}

// A cycle that only loses pulses is over when it is used up: 6, 5, 4 … 1 loses
// one each time, but ones that go on after that are not its last cycle again.
func TestSearchEndsWhatIsUsedUp(t *testing.T) {
	loses := func(list string) bool {
		for _, d := range Search(durations(t, list), Options{}) {
			if d.IsExact() && strings.Contains(d.String(), "loses") {
				return true
			}
		}
		return false
	}
	assert.True(t, loses("6 5 4 3 2 1"))
	assert.False(t, loses("6 5 4 3 2 1 1 1 1 1"))
	d := &Stretch{Groups: []Item{{Size: 2}}, Process: []process.Rule{{Kind: process.Grow, Group: 1, By: -1, After: 1}}}
	for _, moved := range []bool{false, true} { // by shift's own way of playing too
		if moved {
			d.Process = append(d.Process, process.Rule{Kind: process.Shift, By: 1, After: 1})
		}
		var at []int64
		begun, rest, _ := d.Strokes(100, func(s Stroke) bool { at = append(at, s.At); return true })
		assert.Equal(t, []int64{0, 2}, at)
		assert.Equal(t, 2, begun)
		assert.Zero(t, rest)
	}
}

// chanceLists is how many lists are made by chance: fewer in short runs, whose race
// detector looks at one goroutine.
// 2 takes one more each time. To begin a group further on and to turn round each second
// time cancel in cycles of two groups, and are no reading of their own.
func TestProcessesThatCancelAreNotListed(t *testing.T) {
	ranked := Search(durations(t, "3 2 3 3 3 4 3 5 3 6"), Options{})
	assert.Equal(t, "3+2 (5 pulses), 5 times, group 2 grows by 1 each time", ranked[0].String())
	for _, d := range ranked {
		assert.NotContains(t, d.String(), "backwards")
	}
}

// A loop with one slip is listed if it saves anything, weak as it is.
func TestOneSlipIsWeak(t *testing.T) {
	best := Search(durations(t, "3 3 2 2 3 3 2 2 3 3 2 3 3 3 2 2 3 3 2 2 3 3 2 2"), Options{})[0]
	assert.Equal(t, "3+3+2+2 (10 pulses), 6 times, 1 exception", best.String())
	assert.False(t, best.Strong())

	best = Search(durations(t, "3 3 2 3 3 2 3 3 2 3 3 2 3 3 r2 3 3 2 3 3 2"), Options{})[0]
	assert.False(t, best.Strong())
	assert.Equal(t, "cycle 5: 3+3+rest 2 instead (group 3 silent)", best.Stretches[0].Exceptions[0].String())
}

func chanceLists() int {
	if testing.Short() {
		return 150
	}
	return 1000
}

// A shuffled list must not be given a pattern.
func TestSearchFindsNothingInShuffledLists(t *testing.T) {
	random := rand.New(rand.NewPCG(8, 3))
	lists := chanceLists()
	invented := 0
	for range lists {
		n := 24 + random.IntN(60)
		items := make([]Item, n)
		for i := range items {
			items[i].Size = 2 + int64(i%2)
		}
		random.Shuffle(n, func(i, j int) { items[i], items[j] = items[j], items[i] })
		l, err := FromDurations(items, beat.Plain(beat.Of(1, 8)))
		require.NoError(t, err)
		if best := Search(l, Options{})[0]; !best.Literal {
			invented++
			t.Logf("%v: %v saves %.1f", GroupsText(items), best, best.Saved)
		}
	}
	assert.Zero(t, invented, "of %d shuffled lists", lists)
}
