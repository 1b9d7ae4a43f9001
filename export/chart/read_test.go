package chart_test

import (
	"math/rand/v2"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/export/chart"
	"tieover/score"
	"tieover/score/spec"
	"tieover/score/spec/spectest"
)

func set(t *testing.T, p *score.Piece, width int, ascii bool) string {
	t.Helper()
	opt := chart.Default()
	opt.Width, opt.ASCII = width, ascii
	var out strings.Builder
	require.NoError(t, chart.Write(&out, p, opt))
	for _, l := range strings.Split(out.String(), "\n") {
		assert.Equal(t, strings.TrimRight(l, " "), l, "no trailing blanks")
	}
	return out.String()
}

// around plays groups over and over: the onsets, in pulses, up to the end.
func around(end int, groups ...int) []int {
	var onsets []int
	for at, i := 0, 0; at < end; i++ {
		onsets = append(onsets, at)
		at += groups[i%len(groups)]
	}
	return onsets
}

// eighths places onsets counted in eighths into bars of so many eighths.
func eighths(bar int, onsets []int) []heard { return placed(bar, 8, onsets) }

// placed does the same for pulses of 1/den.
func placed(bar, den int, onsets []int) []heard {
	var list []heard
	for _, o := range onsets {
		list = append(list, heard{o/bar + 1, fraction(o%bar, den)})
	}
	return list
}

// again repeats onsets every so many pulses.
func again(times, every int, onsets ...int) []int {
	var list []int
	for i := range times {
		for _, o := range onsets {
			list = append(list, i*every+o)
		}
	}
	return list
}

func fraction(n, d int) string {
	for k := 2; k <= d; k++ {
		for n%k == 0 && d%k == 0 {
			n, d = n/k, d/k
		}
	}
	if d == 1 {
		return strconv.Itoa(n)
	}
	return strconv.Itoa(n) + "/" + strconv.Itoa(d)
}

// The lists are worked out by hand from the groups in the specs: which eighth
// each loop strikes, and where the loops meet.
func TestChartsOfTheDemoSections(t *testing.T) {
	for _, c := range []struct {
		name   string
		onsets [][]heard
		labels map[string]heard
	}{
		{"lock-keepers-round", [][]heard{eighths(10, around(120, 3, 2, 2, 3)), eighths(10, around(120, 3, 3, 2, 2, 2))},
			map[string]heard{"B1": {7, "0"}}},
		{"three-sluices", [][]heard{eighths(10, around(120, 3, 3)), eighths(10, around(120, 3, 3, 2)), eighths(10, around(120, 5, 4, 3))},
			map[string]heard{"C1": {3, "1/2"}, "C2": {5, "1"}, "C3": {8, "1/4"}, "C4": {10, "3/4"}}},
		{"towpath", [][]heard{eighths(7, around(126, 1)), eighths(7, around(126, 2, 2, 3, 2))},
			map[string]heard{"D1": {10, "0"}}},
		{"bell-and-hemiola", [][]heard{eighths(12, around(48, 2, 2, 1, 2, 2, 2, 1)), eighths(12, around(48, 3)), eighths(12, around(48, 2))},
			map[string]heard{}},
		{"kopanica", [][]heard{placed(11, 16, around(66, 1)), placed(11, 16, around(66, 3))}, map[string]heard{}},
		{"color-and-talea", [][]heard{placed(3, 4, again(3, 27, 0, 3, 5, 6, 12, 14, 15, 18, 19, 21))},
			map[string]heard{"T1": {10, "0"}, "T2": {19, "0"}}},
	} {
		text, err := os.ReadFile("../../testdata/sections/" + c.name + "/section.yaml")
		require.NoError(t, err)
		for _, width := range []int{40, 80, 200} {
			got := readChart(set(t, spectest.Read(t, string(text)), width, width == 80))
			assert.Equal(t, c.onsets, got.Onsets, "%s at %d", c.name, width)
			assert.Equal(t, c.labels, got.Labels, "%s at %d", c.name, width)
			for i, lands := range got.Lands {
				assert.True(t, lands, "%s: layer %d lands", c.name, i)
			}
		}
	}
}

// The chart must say what the model says, whatever the spec.
func TestChartsOfRandomSections(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 11))
	accepted, loose := 0, 0
	for accepted < 500 {
		text := randomSpec(random)
		p, problems := spec.Read([]spec.File{{Name: "s", Text: []byte(text)}})
		if len(problems) > 0 || p.Sections[0].BarCount() > 200 {
			continue
		}
		accepted++
		onsets, labels := model(p.Sections[0])
		for _, width := range []int{40, 80, 200} {
			for _, ascii := range []bool{false, true} {
				out := set(t, p, width, ascii)
				got := readChart(out)
				if got.Loose {
					loose++
					for i := range onsets {
						same(t, perBar(onsets[i]), perBar(got.Onsets[i]), text, out)
					}
					continue
				}
				same(t, onsets, got.Onsets, text, out)
				same(t, labels, got.Labels, text, out)
				same(t, merged(got.Onsets), got.Both, text, out)
			}
		}
	}
	t.Logf("%d charts, %d of them on a loose scale", 6*accepted, loose)
}

// merged works the row "together" out from the rows above it.
func merged(layers [][]heard) map[heard]string {
	both := map[heard]string{}
	if len(layers) < 2 {
		return both
	}
	count := map[heard]int{}
	for i, onsets := range layers {
		for _, h := range onsets {
			if count[h]++; count[h] == 1 {
				both[h] = string(rune('a' + i))
			} else {
				both[h] = strconv.Itoa(count[h])
			}
		}
	}
	return both
}

// same shows the chart on failure rather than long lists.
func same(t *testing.T, want, got any, text, out string) {
	t.Helper()
	if !assert.ObjectsAreEqual(want, got) {
		require.Fail(t, "the chart says something else", "%s\n%s\nwant %v\ngot  %v", text, out, want, got)
	}
}

// model lists the attacks and labels of a section as the chart should show
// them: what falls beyond its last bar is the landing and no attack.
func model(s *score.Section) ([][]heard, map[string]heard) {
	at := func(b score.Bar, t int64) heard {
		return heard{b.Number, fraction(int(t), int(s.Grid))}
	}
	var onsets [][]heard
	for i := range s.Layers {
		var list []heard
		for time := range s.Attacks(i) {
			if b := s.BarAt(time); !b.Landing {
				list = append(list, at(b, int64(time-b.Start)))
			}
		}
		onsets = append(onsets, list)
	}
	labels := map[string]heard{}
	for r := range s.Realignments() {
		if b := s.BarAt(r.Time); r.Label != "" {
			labels[r.Label] = at(b, int64(r.Time-b.Start))
		}
	}
	for _, e := range s.Plan {
		if b := s.BarAt(e.Time); e.Mark != "" {
			labels[e.Mark] = at(b, int64(e.Time-b.Start))
		}
	}
	return onsets, labels
}

func perBar(list []heard) map[int]int {
	counts := map[int]int{}
	for _, h := range list {
		counts[h.Bar]++
	}
	return counts
}

// The reader tells a chart from one with a slip.
func TestTheReaderSeesSlips(t *testing.T) {
	right := set(t, spectest.Read(t, round+"end: land\n"), 80, true)
	for from, to := range map[string]string{
		"|X 2 3 x 2 x 2 x 2 3 |": "|X 2 x 2 3 x 2 x 2 3 |", "7 B1": "7", "||X\n": "||\n",
		"|2 . . 2 . a b a b . |": "|2 . . 2 . b b a b . |", "unit: eighth": "unit: quarter",
	} {
		wrong := strings.Replace(right, from, to, 1)
		require.NotEqual(t, right, wrong, from)
		assert.NotEqual(t, readChart(right), readChart(wrong), from)
	}
}
