package bar

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/score/beat"
)

// places writes moments as fractions of a whole note.
func places(list []beat.Time) string {
	var all []string
	for _, t := range list {
		all = append(all, testGrid.Span(t).String())
	}
	return strings.Join(all, " ")
}

// How strongly each step of a bar divides it, by hand from the levels that the
// type names.
func TestLevels(t *testing.T) {
	for _, c := range []struct{ meter, step, levels string }{
		{"4/4", "1/8", "0 3 2 3 1 3 2 3 0"},
		{"2/4", "1/8", "0 3 1 3 0"},
		{"3/4", "1/8", "0 3 2 3 2 3 0"},
		{"5/4", "1/8", "0 3 2 3 2 3 2 3 2 3 0"},
		{"6/4", "1/4", "0 2 2 2 2 2 0"},
		{"8/4", "1/4", "0 2 2 2 1 2 2 2 0"},
		{"2/2", "1/4", "0 3 1 3 0"},
		{"1/4", "1/16", "0 4 3 4 0"},
		{"2/8", "1/16", "0 3 1 3 0"},
		{"7/8", "1/8", "0 2 2 2 2 2 2 0"},
		{"6/8", "1/8", "0 3 3 1 3 3 0"},
		{"9/8", "1/8", "0 3 3 2 3 3 2 3 3 0"},
		{"12/8", "1/8", "0 3 3 2 3 3 1 3 3 2 3 3 0"},
		{"3+2/8", "1/8", "0 3 3 1 3 0"},
		{"2/4+3/8", "1/8", "0 4 3 4 1 3 3 0"},
		{"4/4", "1/32", "0 5 4 5 3 5 4 5 2 5 4 5 3 5 4 5 1 5 4 5 3 5 4 5 2 5 4 5 3 5 4 5 0"},
		{"6/8", "1/32", "0 5 4 5 3 5 4 5 3 5 4 5 1 5 4 5 3 5 4 5 3 5 4 5 0"},
		{"1/16+2/2", "1/16", "0 1 6 5 6 4 6 5 6 3 6 5 6 4 6 5 6 0"}, // halvings count from the summand's pulses
		{"1/4", "1/12", "0 99 99 0"},
	} {
		m := NewMetricGrid(signature(t, c.meter), testGrid)
		step := testGrid.Must(fraction(t, c.step))
		var got []string
		for at := beat.Time(0); at <= m.Length; at += step {
			got = append(got, fmt.Sprint(m.level(at)))
		}
		assert.Equal(t, c.levels, strings.Join(got, " "), c.meter)
	}
	whole := NewMetricGrid(signature(t, "1/1"), 2*testGrid)
	assert.Equal(t, 9, whole.level((2 * testGrid).Must(beat.Of(1, 128))), "the seventh halving of a whole")
	assert.Equal(t, offGrid, whole.level((2 * testGrid).Must(beat.Of(1, 256))), "no sign reaches the eighth")
}

// What divides a bar, and what a beam by the meter joins: each by itself, and
// where only eighths stand; by hand from the comments of MetricGrid.
func TestRooms(t *testing.T) {
	for _, c := range []struct{ meter, points, spans, pairs, twos string }{
		{"4/4", "0 1/4 1/2 3/4 1", "0 1/4 1/2 3/4 1", "0 1/2 1", ""},
		{"2/4", "0 1/4 1/2", "0 1/4 1/2", "0 1/2", ""},
		{"3/4", "0 1/4 1/2 3/4", "0 1/4 1/2 3/4", "0 1/4 1/2 3/4", ""},
		{"2/2", "0 1/2 1", "0 1/2 1", "0 1/2 1", ""},
		{"6/8", "0 1/8 1/4 3/8 1/2 5/8 3/4", "0 3/8 3/4", "0 3/8 3/4", ""},
		{"3+2/8", "0 1/8 1/4 3/8 1/2 5/8", "0 3/8 5/8", "0 3/8 5/8", ""},
		{"1/8", "0 1/8", "0 1/8", "0 1/8", ""},
		{"3/8", "0 1/8 1/4 3/8", "0 3/8", "0 3/8", ""},
		{"4/8", "0 1/8 1/4 3/8 1/2", "0 1/4 1/2", "0 1/4 1/2", "0 1/4 1/2"},
		{"5/8", "0 1/8 1/4 3/8 1/2 5/8", "0 1/4 5/8", "0 1/4 5/8", "0 1/4 5/8"},
		{"8/8", "0 1/8 1/4 3/8 1/2 5/8 3/4 7/8 1", "0 1/2 1", "0 1/2 1", ""},
	} {
		m := NewMetricGrid(signature(t, c.meter), testGrid)
		assert.Equal(t, []string{c.points, c.spans, c.pairs, c.twos}, []string{places(m.points), places(m.spans), places(m.pairs), places(m.twos)}, c.meter)
	}
}

// A pickup has the places of the end of its bar, counted from where it begins: of 4/4 three
// eighths begin in the middle of beat 3, of 6/8 one is the last of its dotted beat.
func TestPickupGrid(t *testing.T) {
	for _, c := range []struct {
		meter                       string
		skipped                     beat.Span
		levels, beats, spans, pairs string
		twos                        string
	}{
		{"4/4", beat.Of(5, 8), "0 2 3 0", "-1/8 1/8 3/8", "-1/8 1/8 3/8", "-1/8 3/8", ""},
		{"4/4", beat.Of(1, 4), "0 3 1 3 2 3 0", "0 1/4 1/2 3/4", "0 1/4 1/2 3/4", "-1/4 1/4 3/4", ""},
		{"6/8", beat.Of(5, 8), "0 0", "-1/4 1/8", "-1/4 1/8", "-1/4 1/8", ""},
		{"5/8", beat.Of(1, 4), "0 2 2 0", "0 1/8 1/4 3/8", "0 3/8", "0 3/8", "-1/4 0 3/8"},
	} {
		whole := NewMetricGrid(signature(t, c.meter), testGrid)
		m := whole.After(testGrid.Must(c.skipped))
		assert.Equal(t, NewMetricGrid(signature(t, c.meter), testGrid), whole, "the whole bar's grid stays")
		assert.Same(t, whole, whole.After(0))
		var levels []string
		for at := beat.Time(0); at <= m.Length; at += testGrid.Must(beat.Of(1, 8)) {
			levels = append(levels, fmt.Sprint(m.level(at)))
		}
		assert.Equal(t, []string{c.levels, c.beats, c.spans, c.pairs, c.twos}, []string{strings.Join(levels, " "), places(m.beats), places(m.spans), places(m.pairs), places(m.twos)}, "%s after %v", c.meter, c.skipped)
	}
}

func TestStrongest(t *testing.T) {
	for _, c := range []struct{ meter, from, to, is string }{
		{"4/4", "0/1", "1/1", "1/2"},
		{"4/4", "1/8", "7/8", "1/2"},
		{"4/4", "0/1", "1/2", "1/4"},
		{"4/4", "1/4", "1/2", "3/8"},
		{"4/4", "1/8", "3/8", "1/4"},
		{"4/4", "1/16", "3/16", "1/8"},
		{"4/4", "0/1", "1/8", "1/16"},
		{"4/4", "1/16", "1/8", "3/32"},
		{"5/4", "0/1", "5/4", "1/4 1/2 3/4 1"},
		{"5/4", "1/4", "1/1", "1/2 3/4"},
		{"6/8", "0/1", "6/8", "3/8"},
		{"6/8", "0/1", "3/8", "1/8 1/4"},
		{"9/8", "2/8", "7/8", "3/8 3/4"},
		{"3+2/8", "1/8", "4/8", "3/8"},
		{"1/1", "0/1", "1/64", "1/128"},
		{"3/4", "0/1", "1/128", ""}, // the grid of these tests has no half of it
	} {
		m := NewMetricGrid(signature(t, c.meter), testGrid)
		from, to := testGrid.Must(fraction(t, c.from)), testGrid.Must(fraction(t, c.to))
		assert.Equal(t, c.is, places(m.strongest(from, to)), "%s from %s to %s", c.meter, c.from, c.to)
	}
}

// No place is stronger than another between two 128ths, whatever the grid holds.
func TestStrongestEndsAtA128th(t *testing.T) {
	m := NewMetricGrid(signature(t, "1/1"), 4*testGrid)
	assert.Empty(t, m.strongest(0, (4*testGrid).Must(beat.Of(1, 128))))
}

func TestHiddenBeats(t *testing.T) {
	m := NewMetricGrid(signature(t, "4/4"), testGrid)
	for _, c := range []struct {
		from, to string
		is       int
	}{{"0/1", "1/1", 3}, {"1/4", "1/2", 0}, {"1/8", "3/8", 1}, {"1/8", "1/2", 1}, {"1/8", "5/8", 2}, {"0/1", "1/8", 0}} {
		assert.Equal(t, c.is, m.hidden(testGrid.Must(fraction(t, c.from)), testGrid.Must(fraction(t, c.to))), "%s to %s", c.from, c.to)
	}
	assert.True(t, m.onBeat(0))
	assert.True(t, m.onBeat(testGrid.Must(beat.Of(3, 4))))
	assert.True(t, m.onBeat(m.Length))
	assert.False(t, m.onBeat(testGrid.Must(beat.Of(1, 8))))
	assert.False(t, m.onBeat(m.Length+1))
}

// A sign is a power of two, one dot makes it half as long again, two dots three
// quarters; none is shorter than a 128th.
func TestNoteValues(t *testing.T) {
	for _, c := range []struct{ length, plain, double string }{
		{"1/1", "w", "w"}, {"1/2", "h", "h"}, {"1/4", "q", "q"}, {"1/8", "e", "e"}, {"1/16", "s", "s"}, {"1/128", "128", "128"},
		{"3/2", "w.", "w."}, {"3/8", "q.", "q."}, {"3/128", "64.", "64."}, {"3/256", "", ""}, {"1/256", "", ""},
		{"7/4", "", "w.."}, {"7/16", "", "q.."}, {"7/128", "", "32.."}, {"7/256", "", ""},
		{"5/8", "", ""}, {"2/1", "", ""}, {"9/8", "", ""}, {"1/12", "", ""},
	} {
		for double, want := range map[bool]string{false: c.plain, true: c.double} {
			v := NoteValues{Grid: 2 * testGrid, Double: double}
			length := v.Grid.Must(fraction(t, c.length))
			value, ok := v.value(length, 1, 1)
			assert.Equal(t, want != "", ok, "%s", c.length)
			assert.Equal(t, ok, v.single(length))
			if ok {
				assert.Equal(t, want, value.String())
			}
		}
	}
	v := NoteValues{Grid: testGrid}
	for _, c := range []struct {
		length   string
		num, den int
		is       string
	}{{"1/12", 3, 2, "e"}, {"1/6", 3, 2, "q"}, {"1/20", 5, 4, "s"}, {"3/20", 5, 4, "e."}, {"1/4", 3, 2, "q."}} {
		value, ok := v.value(testGrid.Must(fraction(t, c.length)), c.num, c.den)
		assert.True(t, ok)
		assert.Equal(t, c.is, value.String(), "%s in %d:%d", c.length, c.num, c.den)
	}
	for length, odd := range map[string]int64{"1/4": 1, "3/8": 1, "1/12": 3, "1/6": 3, "2/5": 5, "1/20": 5, "1/15": 15, "4/7": 7, "1/128": 1} {
		at := testGrid.Must(fraction(t, length))
		assert.Equal(t, odd, v.odd(at), length)
		assert.Equal(t, odd == 1, v.plain(at), length)
	}
	assert.False(t, NoteValues{Grid: 2 * testGrid}.plain((2 * testGrid).Must(beat.Of(1, 256))))
}
