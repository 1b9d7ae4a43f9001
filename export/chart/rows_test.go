package chart_test

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/export/chart"
)

// rulers lists the bar numbers and labels of every row.
func rulers(out string) []string {
	var rows []string
	for _, l := range strings.Split(out, "\n") {
		if rest, ok := strings.CutPrefix(l, "bar "); ok {
			rows = append(rows, strings.Join(regexp.MustCompile(`\S+`).FindAllString(rest, -1), " "))
		}
	}
	return rows
}

// 9 against 15 eighths in 9/8 come together every 5 bars (5 and 3 cycles). Three
// bars fit on 80 columns, two on 56, all five on 120, all ten on 220.
func TestRealignmentsBeginRows(t *testing.T) {
	text := "title: T\nsection: B\nmeter: 9/8\ntempo: 60\nlength: 2 realignments\nlayers:\n  - {name: A, groups: 2+2+2+3}\n  - {name: B, groups: 3x5}\n"
	for width, want := range map[int][]string{
		80:  {"1 2 3", "4 5", "6 B1 7 8", "9 10 11"},
		56:  {"1 2", "3 4", "5", "6 B1 7", "8 9", "10 11"},
		120: {"1 2 3 4 5", "6 B1 7 8 9 10 11"},
		220: {"1 2 3 4 5 6 B1 7 8 9 10 11"},
	} {
		opt := chart.Default()
		opt.Width = width
		assert.Equal(t, want, rulers(written(t, text, opt)), "%d columns", width)
	}
}

// Short periods share a row; a realignment inside a bar breaks nothing.
func TestShortPeriodsShareRows(t *testing.T) {
	opt := chart.Default()
	got := rulers(written(t, "title: T\nsection: B\nmeter: 2/4\ntempo: 60\nlength: 3 realignments\nlayers:\n  - {name: A, groups: 2+2}\n  - {name: B, groups: 3+2+3}\n", opt))
	assert.Equal(t, []string{"1 2 3 B1 4 5 B2 6 7"}, got)
}

// A bar wider than the row is cut at its beats and goes on, its number in
// parentheses; the reader still adds it up (see TestChartsOfRandomSections).
func TestABarWiderThanTheRow(t *testing.T) {
	opt := chart.Default()
	opt.Width = 40
	got := written(t, "title: T\nmeter: 12/8\ntempo: 60\nlength: 1 bars\nlayers:\n  - {name: A, groups: 3+2, pulse: 1/16}\n", opt)
	assert.Contains(t, got, ": the bar goes on in the next row")
	assert.Equal(t, []string{"1", "(1) 2"}, rulers(got))
	assert.Contains(t, got, "|1   +   a   2   +   a   :\n")
	assert.Contains(t, got, ":3   +   a   4   +   a   ||1\n")
}

// The count of the drift view is that of a whole bar, also after a pickup into one bar.
func TestDriftCountsTheWholeBar(t *testing.T) {
	opt := chart.Default()
	opt.Drift = true
	got := written(t, "title: T\nmeter: 4/4\ntempo: 60\npickup: 1/4\nlength: 1 bars\nlayers:\n  - {name: A, groups: 3+3+2}\n", opt)
	assert.Contains(t, got, "|1 + 2 + 3 + 4 + |1")
}

// A crescendo over a rest and one stroke of the claves changes nobody's loudness, and the
// chart does not write it; it writes the diminuendo after it, over a held note. By hand.
func TestAHairpinThatChangesNothingIsNotWritten(t *testing.T) {
	text := written(t, `title: Weir
meter: 4/4
length: 4 bars
layers:
  - {name: Flute, instrument: flute, groups: 8, pitches: C5, except: [{bar: 2, rest: yes}]}
  - {name: Claves, instrument: claves, groups: 8}
plan:
  - {at: bar 2, hairpin: crescendo, to: bar 3}
  - {at: bar 3, hairpin: diminuendo, to: bar 4}
`, chart.Default())
	assert.NotContains(t, text, "cresc.")
	assert.Equal(t, 1, strings.Count(text, "dim."))
}
