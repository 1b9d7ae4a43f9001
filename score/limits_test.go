package score

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/score/process"
	"tieover/score/processor"
)

// Each limit of a piece one below, at, and one above. None needs the music to
// be made: a second is a hundred times what settling takes.
func TestLimits(t *testing.T) {
	start := processor.Time()
	for bars, want := range map[int64]string{999_999: "", 1_000_000: "", 1_000_001: "the section is too long"} {
		check(t, want, in(PlainSignature(4, 4), barsOf(bars), layer("a", groups(3, 2))))
	}
	for bars, want := range map[int64]string{399_999: "", 400_000: "", 400_001: "the piece has 1,000,001 bars"} {
		one, two := in(PlainSignature(4, 4), barsOf(600_000), layer("a", groups(8))), in(PlainSignature(4, 4), barsOf(bars), layer("a", groups(8)))
		two.Name = "C"
		check(t, want, one, two)
	}
	for pulses, want := range map[int64]string{49_999_999: "", 50_000_000: "", 50_000_001: "the piece has 50,000,001 attacks"} {
		check(t, want, in(PlainSignature(64, 1), LengthRule{Kind: Pulses, N: pulses}, layer("a", groups(1))))
	}
	for pulses, want := range map[int64]string{20_000_000: "", 20_000_001: "the piece has 50,000,001 attacks"} {
		one, two := in(PlainSignature(64, 1), LengthRule{Kind: Pulses, N: 30_000_000}, layer("a", groups(1))), in(PlainSignature(64, 1), LengthRule{Kind: Pulses, N: pulses}, layer("a", groups(1)))
		two.Name = "C"
		check(t, want, one, two)
	}
	assert.Less(t, processor.Time()-start, 10*time.Second)
}

func check(t *testing.T, want string, sections ...*Section) {
	t.Helper()
	problems := refused(sections...)
	if want == "" {
		require.Empty(t, problems)
		return
	}
	require.Len(t, problems, 1)
	assert.Equal(t, want, problems[0].Text)
}

// A million bars of every kind of loop settle without being played: counting
// is by arithmetic, or over as soon as nothing changes any more.
func TestLongSectionsSettleAtOnce(t *testing.T) {
	with := func(set func(l *Layer)) func() []*Layer {
		return func() []*Layer {
			var all []*Layer
			for i := range 64 {
				l := layer(string(rune('0'+i)), groups(3, 2, 2))
				set(l)
				all = append(all, l)
			}
			return all
		}
	}
	grow := Process{Rule: process.Rule{Kind: process.Grow, Group: 1, By: 1, From: 2, After: 1, Hold: true}}
	for name, c := range map[string]struct {
		layers  func() []*Layer
		problem string
	}{
		"cut":  {with(func(l *Layer) { l.Loop, l.CutEvery = CutBars, 3 }), "the piece has 213,332,480 attacks or more"},
		"grow": {with(func(l *Layer) { l.Process = []Process{grow} }), "attacks or more"},
		"longer": {with(func(l *Layer) {
			l.Process = []Process{{Rule: process.Rule{Kind: process.Grow, Group: 1, By: 1, After: 1}}}
		}), ""},
	} {
		start := processor.Time()
		problems := refused(in(PlainSignature(4, 4), barsOf(1_000_000), c.layers()...))
		assert.Less(t, processor.Time()-start, 10*time.Second, name)
		if c.problem == "" {
			assert.Empty(t, problems, name)
			continue
		}
		require.Len(t, problems, 1, name)
		assert.Contains(t, problems[0].Text, c.problem)
	}
}

// Dense starts under a cut, and groups that come thicker as a cycle grows, are
// counted as they will be: 8 of 4,104 pulses cut every eight play only the
// ones, 8,000,000 of them in a million bars.
func TestCountIsNoAverage(t *testing.T) {
	l := layer("a", groups(1, 1, 1, 1, 1, 1, 1, 1, 4096))
	l.Loop, l.CutEvery = CutBars, 1
	s := in(PlainSignature(4, 4), barsOf(1_000_000), l)
	require.Empty(t, refused(s))
	assert.Equal(t, 8_000_000, s.countAttacks(0, 1<<30))

	var many []*Layer
	for i := range 7 {
		l := layer(string(rune('a'+i)), groups(1, 1, 1, 1, 1, 1, 1, 1, 4096))
		l.Loop, l.CutEvery = CutBars, 1
		many = append(many, l)
	}
	problems := refused(in(PlainSignature(4, 4), barsOf(1_000_000), many...))
	require.Len(t, problems, 1)
	assert.Contains(t, problems[0].Text, "55,999,", "7 layers of 8 attacks a bar, but for the first and last bars")
}
