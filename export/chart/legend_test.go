package chart_test

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/export/chart"
	"tieover/score/spec"
	"tieover/score/spec/spectest"
)

func TestALegendExplainsOnlyWhatAppears(t *testing.T) {
	head := func(text string) string {
		h, _, _ := strings.Cut(written(t, text, chart.Default()), "\n\n")
		return h
	}
	one := head("title: T\nmeter: 4/4\ntempo: 60\nlayers:\n  - {name: A, groups: 2+2+2+2, strike: short}\n")
	assert.Contains(t, one, "X x struck")
	assert.Contains(t, one, ". silent")
	for _, absent := range []string{"still sounding", "~|", "together", "inside a group"} {
		assert.NotContains(t, one, absent)
	}
	two := head(round)
	assert.NotContains(t, two, "silent")
	assert.Contains(t, two, "~| held over the barline")
}

// A legend explains what the chosen bars hold, and a beat past the ninth of
// which only the last digit has room.
func TestALegendOfWhatIsShown(t *testing.T) {
	text := "title: T\nmeter: 4/4\ntempo: 60\nlength: 3 bars\nlayers:\n  - {name: A, groups: 4+4, enters: bar 2}\n  - {name: B, groups: 5+3+4+4}\n"
	opt := chart.Default()
	assert.Contains(t, written(t, text, opt), ". silent")
	opt.From = 2
	assert.NotContains(t, written(t, text, opt), ". silent")
	twelve := "title: T\nmeter: 12/4\ntempo: 60\nlength: 1 bars\nlayers:\n  - {name: A, groups: 2+2}\n"
	got := written(t, twelve, chart.Default())
	assert.Contains(t, got, "9 + 0 + 1 + 2 + ")
	assert.Contains(t, got, "0 for 10 and so on where there is no room")
	assert.NotContains(t, written(t, strings.Replace(twelve, "12/4", "9/4", 1), chart.Default()), "0 for 10")
}

// A template's own words are spelt too, and an empty file is no template.
func TestTemplatesOfCharts(t *testing.T) {
	opt := chart.Default()
	opt.ASCII, opt.File = true, "mine.tmpl"
	opt.Words = "{{define \"head\"}}Übung {{.Section}}\n{{end}}{{define \"foot\"}}Schluß\n{{end}}"
	got := written(t, round, opt)
	assert.True(t, strings.HasPrefix(got, "Ubung B\n"), got)
	assert.True(t, strings.HasSuffix(got, "Schluss\n"), got)
	opt.Words = ""
	assert.ErrorContains(t, chart.Write(&strings.Builder{}, spectest.Read(t, round), opt), `mine.tmpl: the template must define "head"`)
	opt.Words = `{{define "head"}}{{end}}{{define "foot"}}{{range .Layers}}{{.Nam}}{{end}}{{end}}`
	assert.ErrorContains(t, chart.Write(&strings.Builder{}, spectest.Read(t, round), opt),
		"there is no .Nam here; the fields are .Letter .Name .Groups .Pulse .Whole .Attacks")
}

// Two kinds of triplets have rows of two names, and each row is explained.
func TestTwoKindsOfTriplets(t *testing.T) {
	text := "title: T\nmeter: 2/4\ntempo: 60\nlayers:\n  - {name: A, groups: 1+2, pulse: 1/4 in 3:2}\n  - {name: B, groups: 2+1, pulse: 1/8 in 3:2}\n  - {name: C, groups: 5, pulse: 1/16 in 5:4}\n"
	opt := chart.Default()
	opt.Width = 200
	got := written(t, text, opt)
	for _, want := range []string{
		"   1/4 3s: 3 quarters in the time of 2   1/8 3s: 3 eighths in the time of 2   5s: 5 sixteenths in the time of 4\n1 t l = one-trip-let   ",
		"\n   1/4 3s |1         t         l         ||1\n" +
			"   1/8 3s |1    t    l    2    t    l    ||1\n" +
			"   5s     |1  2  3  4  5  1  2  3  4  5  ||1\n",
	} {
		assert.Contains(t, got, want)
	}
	opt.Layers = []string{"B"}
	assert.Contains(t, written(t, text, opt), "   3s: 1 t l = one-trip-let   ")
}

// Where tuplets leave no room for gaps the composite is counted: on 60ths of a
// whole note all strike at 0; A and B at 10, which is the quarter triplets' t; B and C
// at 15, beat 2; B at 25, the eighth triplets' l. What a figure puts between has no
// count.
func TestTheCompositeOfTupletsIsCounted(t *testing.T) {
	text := "title: T\nmeter: 2/4\ntempo: 60\nlayers:\n  - {name: A, groups: 1+2, pulse: 1/4 in 3:2}\n  - {name: B, groups: 2+1, pulse: 1/8 in 3:2}\n  - {name: C, groups: 5, pulse: 1/16 in 5:4}\n"
	got := written(t, text, chart.Default())
	assert.Contains(t, got, "together  |3  . ..  .2 .  2  . ..  .b .  ||3\n   say    |1         t    2         l    ||\n")
	assert.Contains(t, got, "say: the count of what is struck   ")
	got = written(t, strings.Replace(text, "groups: 5,", "groups: 5, figures: {5: x====x===x},", 1), chart.Default())
	assert.Contains(t, got, "say: the count of what is struck (- between two counts)")
	plain := written(t, round, chart.Default())
	assert.NotContains(t, plain, "say")
}

// A loop that goes round several times in every bar, always in the same places, is
// not numbered; one that comes to other places is, and so is one that fills the
// bar. A legend that has nothing to number explains no numbers.
func TestNumbersThatSayNothing(t *testing.T) {
	text := "title: T\nmeter: 4/4\ntempo: 60\nlength: 3 bars\nlayers:\n  - {name: A, groups: 2+2}\n"
	got := written(t, text, chart.Default())
	assert.NotContains(t, got, "#")
	got = written(t, text+"  - {name: B, groups: 3}\n  - {name: C, groups: 8}\n  - {name: D, groups: 2, enters: bar 2}\n", chart.Default())
	assert.Regexp(t, `(?m)^a A$`, got)
	assert.Regexp(t, `(?m)^b B +#1 +#2 +#3 .* late 5$`, got)
	assert.Regexp(t, `(?m)^c C +#1 +#2 +#3$`, got)
	assert.Regexp(t, `(?m)^d D +#1 enters$`, got)
	assert.Contains(t, got, "#2 second cycle since the last realignment or restart")
}

// The composite's row is named in the compact form too, however many layers.
func TestTheCompositeIsNamed(t *testing.T) {
	text := "title: T\nmeter: 2/4\ntempo: 60\nlength: 1 bars\nlayers:\n"
	for n, want := range map[int]string{2: "\nab |2 ", 3: "\nabc |3 ", 4: "\nall |4 "} {
		layers := ""
		for i := range n {
			layers += fmt.Sprintf("  - {name: L%d, groups: 2+2}\n", i)
		}
		assert.Contains(t, written(t, text+layers, chart.Options{Width: 40, Compact: true}), want)
	}
}

// A later section explains again what another meaning has replaced, and nothing
// that still holds.
func TestLegendsOfSections(t *testing.T) {
	section := func(name, pulse string) string {
		return "title: T\nsection: " + name + "\nmeter: 4/4\ntempo: 60\nlength: 1 bars\nlayers:\n  - {name: A, groups: 2+2, pulse: " + pulse + "}\n"
	}
	p, problems := spec.Read([]spec.File{{Name: "1", Text: []byte(section("P", "1/8"))}, {Name: "2", Text: []byte(section("Q", "1/16"))},
		{Name: "3", Text: []byte(section("R", "1/8"))}, {Name: "4", Text: []byte(section("S", "1/8"))}, {Name: "5", Text: []byte(section("U", "1/16 in 5:4"))},
		{Name: "6", Text: []byte(section("V", "1/8 in 5:4"))}, {Name: "7", Text: []byte(section("W", "1/16 in 5:4"))}})
	require.NoError(t, problems.Err())
	var out strings.Builder
	require.NoError(t, chart.Write(&out, p, chart.Default()))
	said := regexp.MustCompile(`unit: [a-z]+|5s: \d \w+`).FindAllString(out.String(), -1)
	assert.Equal(t, []string{"unit: eighth", "unit: sixteenth", "unit: eighth", "5s: 5 sixteenths", "5s: 5 eighths", "5s: 5 sixteenths"}, said)
	assert.Equal(t, 1, strings.Count(out.String(), "X x struck"))
}
