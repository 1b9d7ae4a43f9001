package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/templates"
)

func TestNewStartersBuild(t *testing.T) {
	for _, starter := range templates.Starters() {
		t.Run(starter.Name, func(t *testing.T) {
			dir := t.TempDir()
			spec := filepath.Join(dir, "spec.yaml")
			code, _, messages := call(t, newNewCmd, "", spec, "--like", starter.Name)
			require.Zero(t, code, messages)
			code, _, messages = call(t, newBuildCmd, "", spec, "-o", filepath.Join(dir, "out"))
			require.Zero(t, code, messages)
			assert.FileExists(t, filepath.Join(dir, "out", "score.musicxml"))
			assert.FileExists(t, filepath.Join(dir, "out", "chart.txt"))
		})
	}
}

// TestNewStartersLast holds starters to the lengths that their comments tell.
func TestNewStartersLast(t *testing.T) {
	for name, bars := range map[string]string{
		"additive":   "12 bars", // lcm(10, 12) = 60 eighths = 6 bars of 5/4, twice
		"phasing":    "96 bars", // 12 places of 4 cycles of 2 bars
		"polyrhythm": "6 bars",
	} {
		file := filepath.Join(t.TempDir(), "spec.yaml")
		code, _, messages := call(t, newNewCmd, "", file, "--like", name)
		require.Zero(t, code, messages)
		code, out, messages := call(t, newReportCmd, "", file)
		require.Zero(t, code, messages)
		_, heading, _ := strings.Cut(out, "\n")
		heading, _, _ = strings.Cut(heading, "\n")
		assert.Contains(t, heading, ", "+bars+", ", name)
	}
}

func TestNewNeverReplaces(t *testing.T) {
	file := filepath.Join(t.TempDir(), "mine.yaml")
	require.NoError(t, os.WriteFile(file, []byte("mine"), 0o600))
	code, _, messages := call(t, newNewCmd, "", file)
	assert.Equal(t, wrongData, code)
	assert.Contains(t, messages, "exists and is left as it is")
	text, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, "mine", string(text))

	code, _, messages = call(t, newNewCmd, "", file, "--force")
	require.Zero(t, code, messages)
	text, err = os.ReadFile(file)
	require.NoError(t, err)
	assert.True(t, strings.HasPrefix(string(text), "# Two lock keepers"))
	left, err := os.ReadDir(filepath.Dir(file))
	require.NoError(t, err)
	assert.Len(t, left, 1, "nothing is left beside it")
}

func TestNewWords(t *testing.T) {
	code, out, _ := call(t, newNewCmd, "", "-", "--schema")
	assert.Zero(t, code)
	assert.True(t, json.Valid([]byte(out)))

	code, _, messages := call(t, newNewCmd, "", "-", "--like", "phasin")
	assert.Equal(t, wrongUse, code)
	assert.Contains(t, messages, "did you mean phasing?")

	code, out, messages = call(t, newNewCmd, "", "-", "--like", "phasing", "--schema")
	assert.Equal(t, wrongUse, code)
	assert.Empty(t, out)
	assert.Contains(t, messages, "--like changes nothing with --schema")
}

func TestInstrumentsTable(t *testing.T) {
	code, out, _ := call(t, newInstrumentsCmd, "")
	require.Zero(t, code)
	for _, line := range strings.Split(out, "\n") {
		assert.LessOrEqual(t, utf8.RuneCountInString(line), 80, line)
	}
	assert.Contains(t, out, "\n  clarinet             treble clef        D3-G6     sounds a major 2nd lower\n")
	assert.Contains(t, out, "\n  piano                two staves         A0-C8\n")
	assert.Contains(t, out, "closed hi-hat, open hi-hat,")
	assert.NotContains(t, out, "sounds  ", "every transposition has its words")

	code, out, _ = call(t, newInstrumentsCmd, "", "hihat")
	require.Zero(t, code)
	assert.Equal(t, 1, strings.Count(out, "drum set"))
	assert.NotContains(t, out, "piano")

	code, _, messages := call(t, newInstrumentsCmd, "", "marimbaphone")
	assert.Equal(t, wrongData, code)
	assert.Contains(t, messages, "did you mean marimba?")
}

func TestInstrumentsJSON(t *testing.T) {
	code, out, _ := call(t, newInstrumentsCmd, "", "--json", "congas")
	require.Zero(t, code)
	var got struct {
		Version     int
		Instruments []struct {
			Name   string
			Sounds []struct {
				Name string
				Key  int
			}
		}
	}
	require.NoError(t, json.Unmarshal([]byte(out), &got))
	require.Equal(t, 1, got.Version)
	require.Len(t, got.Instruments, 1)
	assert.Equal(t, 63, got.Instruments[0].Sounds[0].Key, "General MIDI: open high conga")
}
