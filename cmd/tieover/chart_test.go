package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// typed runs a command line as a user types it.
func typed(args ...string) (code int, out, messages string) {
	var o, e bytes.Buffer
	code = run(args, streams{strings.NewReader(""), &o, &e})
	return code, o.String(), e.String()
}

const demoRound = "../../testdata/sections/lock-keepers-round/section.yaml"

func TestChartCommand(t *testing.T) {
	code, out, messages := typed("chart", demoRound, "--width", "60", "--bars", "7-8", "--layers", "Marimba")
	assert.Equal(t, done, code, messages)
	assert.Empty(t, messages)
	assert.Contains(t, out, "bar         7 B1                 8\n")
	assert.Contains(t, out, "a Marimba   #1                   #2\n")
	assert.NotContains(t, out, "Vibraphone")

	_, out, _ = typed("chart", demoRound, "--plain")
	assert.True(t, strings.HasPrefix(out, "bar "), "no heading: %.20q", out)

	_, out, _ = typed("chart", demoRound, "--drift")
	assert.Contains(t, out, "   2  2      late 2      |    X 2 3 x 2 3 x 2 |x 2 x 2\n")
	assert.Contains(t, out, "   3  3      late 4      |        X 2 3 x 2 3 |x 2 x 2 x 2\n")
}

// Marimba's felt downbeat comes 7 eighths in, so felt bar 0 begins 3 eighths late; the
// realignment after 60 eighths is 53 after the downbeat: bar 6, 3 eighths in. By hand.
func TestChartOfFeltBars(t *testing.T) {
	code, out, messages := typed("chart", demoRound, "--felt", "Marimba")
	assert.Equal(t, done, code, messages)
	for _, want := range []string{
		"\nbars as felt from Marimba, heard as 3+3+2+2: felt bar 1 begins at the written\n  bar 1 beat 4 1/2\n",
		"\nbar            0              1                    2\ncount         |+ 3 + 4 + 5 + |1 + 2 + 3 + 4 + 5 + |1 + 2 + 3 + 4 + 5 + |\n",
		"\n   10         |X 2 3 x 2 x 2 |x 2 3 X 2 3 x 2 x 2 |",
		"\nmark                 B1\nbar            6 ",
		"\nB1 after 60 eighths = bar 6 beat 2 1/2, 13.6 s\n",
	} {
		assert.Contains(t, out, want)
	}
	_, drift, _ := typed("chart", demoRound, "--felt", "Marimba", "--drift", "--layers", "Marimba", "--plain")
	assert.Contains(t, drift, "   1  0      late 3      |      X 2 3 x 2 x 2 |x 2 3\n")
	_, same, _ := typed("chart", demoRound, "--felt", "Marimba=3+3+2+2")
	assert.Equal(t, out, same)

	for name, want := range map[string]string{
		"Vibraphone":  "Vibraphone is heard as it is written: a grouping whose long groups do not come first could be heard otherwise; bars can be felt from Marimba",
		"Marimba=3+2": "Marimba is not heard as 3+2 but as 3+3+2+2",
	} {
		code, out, messages = typed("chart", demoRound, "--felt", name)
		assert.Equal(t, wrongData, code)
		assert.Empty(t, out)
		assert.Contains(t, messages, want)
	}
	code, _, messages = typed("chart", demoRound, "--felt", "Tuba")
	assert.Equal(t, wrongUse, code)
	assert.Contains(t, messages, `no layer is named "Tuba"; the layers are Marimba, Vibraphone`)
}

// What is silent in a felt pickup is not held over its end.
func TestChartOfAFeltPickup(t *testing.T) {
	path := filepath.Join(t.TempDir(), "spec.yaml")
	require.NoError(t, os.WriteFile(path, []byte(`title: Felt
meter: 4/4
pickup: 3/8
length: 4 bars
layers:
  - {name: Bass, groups: 2+3, enters: pickup}
  - {name: Gong, groups: 4}
`), 0o600))
	code, out, messages := typed("chart", path, "--felt", "Bass")
	assert.Equal(t, done, code, messages)
	assert.Contains(t, out, "\n   4      |. . |. X 2 3 4 X 2 3~|")
}

// The loop of 12 cut every 4 bars of 10: at 40 the whole one is 4 into its fourth pass;
// at 120, where the section ends, both begin anew. The loop of 10 is never cut short.
func TestChartOfCutAndWhole(t *testing.T) {
	code, out, messages := typed("chart", demoRound, "--cut", "4")
	assert.Equal(t, done, code, messages)
	assert.NotContains(t, out, "Marimba, cut")
	assert.NotContains(t, out, "together")
	for _, want := range []string{
		"\ntext                Vibraphone parts\nbar                 5 ",
		"\nb Vibraphone                        #5 late 8\n",
		"\nc Vibraphone, cut   #1 restart               #2 late 2\n",
		"\nVibraphone parts at bar 5 beat 1, the whole loop 4 of 12 pulses in\nVibraphone meets at bar 13 beat 1, where the section ends\n",
	} {
		assert.Contains(t, out, want)
	}
	_, out, _ = typed("chart", "../../testdata/sections/short-lock/section.yaml", "--whole", "--layers", "Gatekeeper")
	assert.Contains(t, out, "\nb Gatekeeper, whole   #1 ")
	assert.Contains(t, out, "\nGatekeeper parts at bar 7 beat 1, the whole loop 6 of 9 pulses in\n")
	// 16 eighths are 3 x 5 + 1 and 2 x 6 + 4: in bar 3 both part. 48 are 8 x 6 and 9 x 5 + 3: in bar 7 the six alone meets.
	two := filepath.Join(t.TempDir(), "two.yaml")
	require.NoError(t, os.WriteFile(two, []byte("title: Two\ntempo: 60\nmeter: 4/4\nlength: 7 bars\nlayers:\n"+
		"  - {name: Bell, groups: 3+2, loop: cut every 2 bars}\n  - {name: Oar, groups: 3+3, loop: cut every 2 bars}\n  - {name: Mast, groups: 3+3+2}\n"), 0o600))
	_, out, _ = typed("chart", two, "--whole")
	assert.Regexp(t, `text +Bell, Oar part\n`, out)
	assert.Regexp(t, `text +Oar meets\n`, out)
	_, out, _ = typed("chart", demoRound, "--cut", "4", "--felt", "Marimba")
	assert.Contains(t, out, "\nVibraphone parts at bar 4 beat 2 1/2, the whole loop 4 of 12 pulses in\n")

	for _, c := range []struct {
		args string
		code int
		want string
	}{
		{"--whole", wrongData, "no loop is cut short; --cut 10 shows"},
		{"--cut 6", wrongData, "--cut 6 cuts no loop short; another number of bars, less than 12, may"},
		{"--cut 0", wrongUse, "--cut 0: give a number of bars, 1 or more"},
	} {
		code, out, messages = typed(append([]string{"chart", demoRound}, strings.Fields(c.args)...)...)
		assert.Equal(t, c.code, code)
		assert.Empty(t, out)
		assert.Contains(t, messages, c.want)
	}
}

func TestChartCommandWritesAWholeFileOrNone(t *testing.T) {
	file := filepath.Join(t.TempDir(), "chart.txt")
	code, out, messages := typed("chart", demoRound, "-o", file)
	assert.Equal(t, done, code, messages)
	assert.Empty(t, out)
	written, err := os.ReadFile(file)
	require.NoError(t, err)
	_, want, _ := typed("chart", demoRound)
	assert.Equal(t, want, string(written))

	code, _, messages = typed("chart", demoRound, "-o", file, "--layers", "Tuba")
	assert.Equal(t, wrongData, code)
	assert.Contains(t, messages, `no layer is named "Tuba"; the layers are Marimba, Vibraphone`)
	again, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, written, again, "a failed run leaves the old file")
}

func TestChartCommandRefusesWrongUse(t *testing.T) {
	for _, c := range []struct{ args, want string }{
		{"--width 5", "--width 5: a chart has 24 to 10000 columns"},
		{"--bars x", `"x" for "--bars" flag: write 5, 5-12, 5- or -12`},
		{"--plain --template x", "--template changes nothing with --plain"}, {"--drift --template x", "--template changes nothing with --drift"},
		{"--drift --touches", "--touches changes nothing with --drift"}, {"--drift --words", "--words changes nothing with --drift"}, {"--drift --pitches", "--pitches changes nothing with --drift"}, {"--drift --compact", "--compact changes nothing with --drift"},
		{"--bars 0", `"0" for "--bars" flag: bars count from 1; -12 has a pickup too;`}, {"--bars 0-3", "bars count from 1; -12 has a pickup too;"},
		{"--bars 9-3", `"9-3" for "--bars" flag: the end, bar 3, comes before bar 9; write 3-9;`}, {"--bars 05", "write 5, 5-12"}, {"--bars -", "write 5, 5-12"}, {"--bars +3", "write 5, 5-12"},
	} {
		code, out, messages := typed(append([]string{"chart", demoRound}, strings.Fields(c.args)...)...)
		assert.Equal(t, wrongUse, code, c.args)
		assert.Contains(t, messages, c.want)
		assert.Empty(t, out)
	}
}

func TestChartTemplate(t *testing.T) {
	mine := filepath.Join(t.TempDir(), "mine.tmpl")
	write := func(text string) { require.NoError(t, os.WriteFile(mine, []byte(text), 0o666)) }

	write(`{{define "head"}}{{.Title}} in {{.Meter}}{{range .Layers}}; {{.Letter}} {{.Groups}}{{end}}` + "\n" + `{{end}}{{define "foot"}}{{range .Realignments}}{{.Label}}!{{end}}` + "\n" + `{{end}}`)
	code, out, messages := typed("chart", demoRound, "--template", mine)
	assert.Equal(t, done, code, messages)
	assert.True(t, strings.HasPrefix(out, "Lock Keeper's Round in 5/4; a 3+2+2+3; b 3+3+2+2+2\nbar "), "%.80q", out)
	assert.True(t, strings.HasSuffix(out, "\nB1!realignment 2!\n"))

	for text, want := range map[string]string{
		"{{define \"head\"}}\n{{.Titel}}{{end}}{{define \"foot\"}}{{end}}": mine + ":2:2: there is no .Titel here; the fields are .Heading .Legend .Title ",
		"{{range .Layers}":           mine + ":1: ",
		"{{define \"head\"}}{{end}}": `must define "foot"`,
		strings.Repeat(" ", 1<<20+1): mine + " is larger than 1 MiB",
	} {
		write(text)
		code, out, messages = typed("chart", demoRound, "--template", mine)
		assert.Equal(t, wrongData, code, "%.40q", text)
		assert.Contains(t, messages, want)
		assert.Empty(t, out, "nothing is written")
	}
	code, _, messages = typed("chart", demoRound, "--template", mine+"x")
	assert.Equal(t, wrongData, code)
	assert.Contains(t, messages, "cannot read")
}

func TestWorksheetCommand(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "sheet")
	code, out, messages := typed("worksheet", demoRound, "-o", dir, "--seed", "3")
	assert.Equal(t, done, code, messages)
	assert.Empty(t, out)
	assert.Equal(t, "no exercise of the kind next: no layer has a process; one that grows, turns, shifts or runs backwards would serve\n", messages)
	for _, name := range []string{"worksheet.txt", "answers.txt", "worksheet-1-composite.musicxml", "answers-5-cut.musicxml"} {
		assert.FileExists(t, filepath.Join(dir, name))
	}

	other := filepath.Join(t.TempDir(), "other")
	code, _, messages = typed("worksheet", demoRound, "-o", other, "--only", "next")
	assert.Equal(t, wrongData, code)
	assert.Contains(t, messages, "no exercise of the kind next: no layer has a process")
	assert.NoDirExists(t, other, "nothing is written")

	for _, args := range [][]string{{}, {"-o", other, "--level", "4"}, {"-o", other, "--only", "sing"}, {"-o", other, "--width", "3"}} {
		code, _, _ = typed(append([]string{"worksheet", demoRound}, args...)...)
		assert.Equal(t, wrongUse, code, args)
		assert.NoDirExists(t, other)
	}
}

// A spec that allows no exercise is told all that it lacks, each once.
func TestASpecWithoutExercises(t *testing.T) {
	file := filepath.Join(t.TempDir(), "s.yaml")
	require.NoError(t, os.WriteFile(file, []byte("title: T\nmeter: 4/4\ntempo: 60\nlength: 4 bars\nlayers:\n  - {name: A, instrument: flute, line: [C5 2, rest 2]}\n"), 0o644))
	code, _, messages := typed("worksheet", file, "-o", filepath.Join(t.TempDir(), "w"))
	assert.Equal(t, wrongData, code)
	for _, kind := range []string{"composite", "realign", "groups", "next", "beam", "cut"} {
		assert.Equal(t, 1, strings.Count(messages, "no exercise of the kind "+kind+": "), messages)
	}
}
