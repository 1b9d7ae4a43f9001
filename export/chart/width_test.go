package chart_test

import (
	"fmt"
	"math/rand/v2"
	"os"
	"strings"
	"testing"

	"github.com/rivo/uniseg"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/export/chart"
	"tieover/score/spec"
	"tieover/score/spec/spectest"
)

// Names and texts that have no place to break.
var long = []string{"Donaudampfschifffahrtsgesellschaftskapitän", "水門水門水門水門水門水門水門水門", "a b",
	"e\u0301e\u0301e\u0301e\u0301e\u0301e\u0301e\u0301e\u0301e\u0301e\u0301e\u0301e\u0301e\u0301e\u0301e\u0301e\u0301e\u0301e\u0301e\u0301e\u0301e\u0301e\u0301e\u0301e\u0301e\u0301e\u0301",
	"שומרהסכרשומרהסכרשומרהסכרשומרהסכר", "two words"}

// No line of any chart is wider than asked, at any width, whatever the names.
func TestEveryLineKeepsTheWidth(t *testing.T) {
	random := rand.New(rand.NewPCG(17, 4))
	name := func() string { return long[random.IntN(len(long))] }
	for made := 0; made < 150; {
		text := strings.Replace(randomSpec(random), "title: Drawn", "title: "+name()+"\nsubtitle: "+name(), 1)
		for i := range 4 {
			text = strings.Replace(text, fmt.Sprintf(" %d\n", i), fmt.Sprintf(" %s %d\n", name(), i), 1)
		}
		text += fmt.Sprintf("plan:\n  - {at: bar 1, text: %q}\n  - {at: bar 2 beat 2, mark: M, text: %q, dynamic: ff}\n  - {at: bar 3, mark: %q}\n", name(), name(), name())
		p, problems := spec.Read([]spec.File{{Name: "s", Text: []byte(text)}})
		if len(problems) > 0 || p.Sections[0].BarCount() > 60 {
			continue
		}
		made++
		opt := chart.Options{Width: chart.Narrowest + random.IntN(60), ASCII: random.IntN(2) == 0,
			Pitches: random.IntN(2) == 0, Touches: random.IntN(2) == 0, Compact: random.IntN(2) == 0, Bare: random.IntN(4) == 0, Drift: random.IntN(4) == 0}
		var out strings.Builder
		if err := chart.Write(&out, p, opt); err != nil {
			require.True(t, opt.Drift, err)
			require.ErrorContains(t, err, "give --width ")
			continue
		}
		for _, l := range strings.Split(out.String(), "\n") {
			require.LessOrEqual(t, uniseg.StringWidth(l), opt.Width, "%+v\n%s\n%s\n%q", opt, text, out.String(), l)
		}
	}
}

// Nor of the demo sections.
func TestNoLineIsTooWide(t *testing.T) {
	for _, name := range []string{"lock-keepers-round", "three-sluices", "towpath", "kopanica", "color-and-talea", "bell-and-hemiola"} {
		text, err := os.ReadFile("../../testdata/sections/" + name + "/section.yaml")
		require.NoError(t, err)
		for width := chart.Narrowest; width < 130; width += 7 {
			opt := chart.Default()
			opt.Width = width
			for _, l := range strings.Split(written(t, string(text), opt), "\n") {
				assert.LessOrEqual(t, uniseg.StringWidth(l), width, "%s at %d: %q", name, width, l)
			}
		}
	}
}

// A second section explains only what the first did not, and starts over.

// What stands before the bars of the drift view has room there: marks of the
// plan of any length, and lateness of three digits and a half. 3 of 1/80 before
// the barline of bars of 63/32 = 157 1/2 pulses.
func TestTheDriftViewHasRoomForItsWords(t *testing.T) {
	head := "title: T\nmeter: 63/32\ntempo: 60\nlength: 3 bars\nlayers:\n  - {name: A, groups: 155, pulse: 1/64 in 5:4, offset: %d}\n%s"
	for _, c := range []struct {
		offset int
		plan   string
		want   string
	}{
		{0, "", "early 2 1/2   |"},
		{-110, "", "early 112 1/2 |"},
		{0, "plan: [{at: bar 1, mark: Donaudampfschifffahrt}]\n", "   1  1 Donaudam..                |X"},
	} {
		opt := chart.Options{Width: 2000, Drift: true}
		assert.Contains(t, written(t, fmt.Sprintf(head, c.offset, c.plan), opt), c.want)
	}
	// Among unequal bars a head before the section is as early as it is.
	text := "title: T\nmeter: [4/4, 3/4]\ntempo: 60\nlength: 4 bars\nlayers:\n  - {name: A, groups: 3000, pulse: 1/8, offset: -2345}\n"
	assert.Contains(t, written(t, text, chart.Options{Width: 100, Drift: true}), " early 2345  |")

	wide := "title: T\nmeter: 64/1\ntempo: 60\nlength: 1 bars\nlayers:\n  - {name: A, groups: 3+2, pulse: 1/128 in 5:4}\n"
	err := chart.Write(&strings.Builder{}, spectest.Read(t, wide), chart.Options{Width: 100, Drift: true})
	assert.ErrorContains(t, err, "more than the 10000 that a line may have")
}
