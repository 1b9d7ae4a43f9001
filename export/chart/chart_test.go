package chart_test

import (
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/rivo/uniseg"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/export/chart"
	"tieover/score/spec"
	"tieover/score/spec/spectest"
)

const round = `
title: Lock Keeper's Round
section: B
tempo: 132
meter: 5/4
layers:
  - {name: Marimba, groups: 3+2+2+3}
  - {name: Vibes, groups: 3+3+2+2+2}
`

func written(t *testing.T, text string, opt chart.Options) string {
	t.Helper()
	var out strings.Builder
	require.NoError(t, chart.Write(&out, spectest.Read(t, text), opt))
	return out.String()
}

// The chart of the round was written by hand before the program was: every
// sign of it, and the facts 24 + 25 attacks, 7 together, 42 composite.
func TestTheRoundAsWrittenByHand(t *testing.T) {
	want, err := os.ReadFile("testdata/round.txt")
	require.NoError(t, err)
	got := written(t, round, chart.Default())
	assert.Equal(t, string(want), got)

	r := readChart(got)
	assert.Len(t, r.Onsets[0], 24)
	assert.Len(t, r.Onsets[1], 25)
	var composite, together int
	for _, l := range strings.Split(got, "\n") {
		if strings.HasPrefix(l, "together   |") {
			row, _, _ := strings.Cut(strings.TrimPrefix(l, "together"), "||")
			composite += strings.Count(row, "a") + strings.Count(row, "b") + strings.Count(row, "2")
			together += strings.Count(row, "2")
		}
	}
	assert.Equal(t, 7, together)
	assert.Equal(t, 42, composite)
	assert.Equal(t, 2, strings.Count(got, "~|2")+strings.Count(got, "~|3"), "b is held over the barlines at 40 and 50 eighths")
}

// Triplets against plain eighths: the rows of this chart were written by hand.
// What the chart adds to them is the landing and how early cycles come.
func TestTripletsOnOneGrid(t *testing.T) {
	want := []string{
		"2s |1  +  2  +  3  +  4  +  |1  +  2  +  3  +  4  +  |1  +  2  +  3  +  4  +  ||",
		"a  |X  2  3  x  2  3  x  2  |X  2  3  x  2  3  x  2  |X  2  3  x  2  3  x  2  ||",
		"    #1                       #2                       #3",
		"b  |X 2 x 2 x 2 x 2 3 X 2 x~|2 x 2 x 2 3 X 2 x 2 x 2 |x 2 3 X 2 x 2 x 2 x 2 3 ||",
		"    #1                #2                 #3                 #4",
		"3s |1 t l 2 t l 3 t l 4 t l |1 t l 2 t l 3 t l 4 t l |1 t l 2 t l 3 t l 4 t l ||",
		"ab |2 ..b . ba. b ... 2 ..b |a b.. b .a. b ..b a b.. |2 ... b .ab . b.. 2 ... ||",
	}
	opt := chart.Default()
	opt.Width, opt.Compact, opt.Bare = 90, true, true
	got := strings.Split(written(t, `
title: Triplets
meter: 4/4
tempo: 132
layers:
  - {name: a, groups: 3+3+2}
  - {name: b, groups: 2+2+2+3, pulse: 1/8 in 3:2}
`, opt), "\n")
	assert.True(t, strings.HasPrefix(got[0], "bar 1                        2                        3"), got[0])
	for i, row := range want {
		line := got[i+1]
		for _, early := range []string{" early 3", " early 6", " early 9"} {
			line = strings.Replace(line, early, strings.Repeat(" ", len(early)), 1)
		}
		assert.True(t, strings.HasPrefix(line, row), "%s\n%s", row, line)
	}
}

func TestASCIIHasNoOtherByte(t *testing.T) {
	opt := chart.Default()
	opt.ASCII = true
	got := written(t, strings.NewReplacer("Marimba", "水門", "Vibes", "Crécelle ß", "Lock Keeper's", "Éclusier’s").Replace(round), opt)
	for i := range len(got) {
		require.Less(t, got[i], byte(128), "byte %d", i)
	}
	assert.Contains(t, got, "ECLUSIER'S ROUND, B")
	assert.Contains(t, got, "a <6C34><9580>")
	assert.Contains(t, got, "b Crecelle ss")
}

// A name that is cut short in ASCII ends with a whole character.
func TestASCIINamesAreCutBetweenCharacters(t *testing.T) {
	opt := chart.Default()
	opt.ASCII, opt.Width = true, 60
	for n := range 8 {
		got := written(t, strings.Replace(round, "Marimba", strings.Repeat("x", n)+"水門水門水門", 1), opt)
		for _, l := range strings.Split(got, "\n") {
			if head, cut, found := strings.Cut(l, ".."); found && strings.HasPrefix(l, "a x") {
				assert.Equal(t, strings.Count(head, "<"), strings.Count(head, ">"), l)
				assert.NotContains(t, cut, ">")
			}
		}
	}
}

// Names are as wide as a terminal shows them: two columns for each of 水門,
// none for the accent of a decomposed é.
func TestNamesAreAlignedByDisplayWidth(t *testing.T) {
	got := written(t, strings.NewReplacer("Marimba", "水門の番人", "Vibes", "E\u0301cluse").Replace(round), chart.Default())
	column := -1
	for _, l := range strings.Split(got, "\n") {
		if at := strings.Index(l, "#1"); at >= 0 {
			if column >= 0 {
				assert.Equal(t, column, uniseg.StringWidth(l[:at]), l)
			}
			column = uniseg.StringWidth(l[:at])
		}
	}
	assert.Positive(t, column)
}

func TestSections(t *testing.T) {
	p, problems := spec.Read([]spec.File{{Name: "a", Text: []byte(round)},
		{Name: "b", Text: []byte("title: Lock Keeper's Round\nsection: C\nmeter: 3/4\ntempo: 60\nlayers:\n  - {name: Marimba, groups: 2+2, strike: short}\n")}})
	require.NoError(t, problems.Err())
	var out strings.Builder
	require.NoError(t, chart.Write(&out, p, chart.Default()))
	_, second, found := strings.Cut(out.String(), "LOCK KEEPER'S ROUND, C")
	require.True(t, found)
	assert.NotContains(t, second, "X x struck")
	assert.Contains(t, second, ". silent")
	assert.Contains(t, second, "bar         7", "bars are numbered through the piece")
}

// Sixty-four layers: letters run from a to bl, and three columns keep the
// composite's numbers of two digits apart.
func TestSixtyFourLayers(t *testing.T) {
	var b strings.Builder
	b.WriteString("title: Flood\nmeter: 4/4\ntempo: 60\nlength: 4 bars\nlayers:\n")
	for i := range 64 {
		b.WriteString("  - {name: Gate " + strconv.Itoa(i) + ", groups: " + strconv.Itoa(i%9+2) + "+2}\n")
	}
	p := spectest.Read(t, b.String())
	out := set(t, p, 80, false)
	onsets, labels := model(p.Sections[0])
	got := readChart(out)
	assert.Equal(t, onsets, got.Onsets)
	assert.Equal(t, labels, got.Labels)
	assert.Contains(t, out, "\nbl Gate 63")
	assert.Contains(t, out, "together    |64 ")
}

// Sevens against fives against threes have no grid that a row could hold: each
// row is spaced on its own, and says so.
func TestALooseScaleSaysSo(t *testing.T) {
	text := `
title: Three clocks
meter: 4/4
tempo: 60
length: 2 bars
layers:
  - {name: A, groups: 3+4, pulse: 1/16 in 7:4}
  - {name: B, groups: 2+3, pulse: 1/16 in 5:4}
  - {name: C, groups: 2+2, pulse: 1/8 in 3:2}
`
	got := written(t, text, chart.Default())
	assert.Contains(t, strings.Join(strings.Fields(got), " "), "only barlines stand under one another")
	assert.NotContains(t, got, "together")
	r := readChart(got)
	for i, perBar := range []int{8, 8, 6} {
		assert.Len(t, r.Onsets[i], 2*perBar, "layer %d", i)
	}
	wide := chart.Default()
	wide.Width = 1000
	assert.NotContains(t, written(t, text, wide), "only barlines", "a wide page holds the grid")
}

// On a loose scale the width is the one in which the rows come out most even: a
// quarter of 15 columns holds five threes and three fives whole.
func TestLooseRowsAreEven(t *testing.T) {
	got := written(t, `
title: Three clocks
meter: 4/4
tempo: 60
length: 2 bars
layers:
  - {name: A, groups: 3+4, pulse: 1/16 in 7:4}
  - {name: B, groups: 2+3, pulse: 1/16 in 5:4}
  - {name: C, groups: 2+1, pulse: 1/8 in 3:2}
`, chart.Default())
	assert.Contains(t, got, "|X  2  x  2  3  X  2  x  2  3  X")
	assert.Contains(t, got, "|X    2    x    X    2    x    X")
	assert.Contains(t, got, "|X 2 3 x 2 3 4  X 2 3 x 2 3 4  X")
}

func TestLandingAndRepeat(t *testing.T) {
	for end, want := range map[string]string{"land": "7 B1\n", "repeat": "7 B1 = beginning\n", "stop": "7\n"} {
		opt := chart.Default()
		opt.Width = 100
		got := written(t, round+"end: "+end+"\n", opt)
		assert.Contains(t, got, want, end)
		assert.Contains(t, got, "x 2 x 2 ||X\n", end)
		assert.Equal(t, end == "repeat", strings.Contains(got, "repeat from bar 1"))
	}
}

func TestBarsAndLayersAreChosen(t *testing.T) {
	opt := chart.Default()
	opt.From, opt.To, opt.Layers = 2, 3, []string{"Vibes"}
	got := written(t, round, opt)
	assert.Contains(t, got, "|x 2 X 2 3 x 2 3 x 2 |x 2 x 2 X 2 3 x 2 3 |\n")
	assert.NotContains(t, got, "Marimba")
	assert.NotContains(t, got, "together")
	assert.NotContains(t, got, "||")

	opt.Layers, opt.From = nil, 9
	assert.EqualError(t, chart.Write(&strings.Builder{}, spectest.Read(t, round), opt), "there is no bar 9; the piece has bars 1 to 6")

	opt.From, opt.Layers = 2, []string{"Tuba"}
	err := chart.Write(&strings.Builder{}, spectest.Read(t, round), opt)
	assert.EqualError(t, err, `no layer is named "Tuba"; the layers are Marimba, Vibes`)
}

func TestPitches(t *testing.T) {
	opt := chart.Default()
	opt.Pitches, opt.Width = true, 100
	got := written(t, `
title: Pitches
meter: 4/4
tempo: 60
length: 1 bar
layers:
  - {name: M, groups: 3+3+2, instrument: marimba, pitches: F#4 G3+D4}
  - {name: D, groups: 4+4, instrument: drum set, pitches: snare closed hi-hat}
`, opt)
	assert.Contains(t, got, "F#4         D4          F#4")
	assert.Contains(t, got, "\n"+strings.Repeat(" ", 23)+"G3\n")
	assert.Contains(t, got, "sn              ch")
	assert.Contains(t, got, "ch = closed hi-hat")
}

// A landing inside the last bar has no gap: nothing follows it. By hand: the heads of
// A, 2 pulses late, and B, 1 early, meet at 27, 62 and 97 pulses; 97 is pulse 2 of bar 13.
func TestLandingInsideTheLastBarHasNoGap(t *testing.T) {
	got := written(t, `
title: Sluice
meter: 4/4
length: 3 realignments
end: land
layers:
  - {name: A, groups: 3+2, offset: 2}
  - {name: B, groups: 4+3, offset: -1}
`, chart.Default())
	assert.Contains(t, got, "together  |2 . a b . a . 2 |. . 2 . a . b a |. 2 . . . . . . ||\n"+
		"   gaps   |2   1 2   2   3 |    2   2   1 2 |                ||\n")
	assert.NotContains(t, got, "0 for 10")
}
