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
		{"--bars x", "--bars x: write 5, 5-12, 5- or -12"},
		{"--plain --template x", "--template changes nothing with --plain"}, {"--drift --template x", "--template changes nothing with --drift"},
		{"--drift --touches", "--touches changes nothing with --drift"}, {"--drift --pitches", "--pitches changes nothing with --drift"}, {"--drift --compact", "--compact changes nothing with --drift"},
		{"--bars 0", "write 5, 5-12"}, {"--bars 9-3", "write 5, 5-12"}, {"--bars -", "write 5, 5-12"}, {"--bars +3", "write 5, 5-12"},
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
	} {
		write(text)
		code, out, messages = typed("chart", demoRound, "--template", mine)
		assert.Equal(t, wrongData, code, text)
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
	assert.Equal(t, "no exercise of the kind next: no layer has a process\n", messages)
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
