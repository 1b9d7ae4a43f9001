package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// bargeSpec is a spec of one layer in 4/4: quarters of a cycle of three and five
// eighths, sixteen of them, so that every place can be counted on paper:
// onsets in eighths 0 3 8 11 16 19 24 27, pitches C4 G4 by turns.
const bargeSpec = `title: Lock
meter: 4/4
length: 4 bars
layers:
  - name: Barge
    instrument: flute
    groups: 3+5
    pitches: C5 G5
`

// notCompared is what every result says of itself.
const notCompared = "tempo, dynamics, articulation, text, how it is written"

// edited builds the spec, changes the score's text once, and returns what
// verify says of it.
func edited(t *testing.T, spec string, change func(string) string, flags ...string) (code int, out string) {
	t.Helper()
	dir := t.TempDir()
	path := filepath.Join(dir, "spec.yaml")
	require.NoError(t, os.WriteFile(path, []byte(spec), 0o600))
	score := filepath.Join(built(t, path), "score.musicxml")
	data, err := os.ReadFile(score)
	require.NoError(t, err)
	text := change(string(data))
	require.NotEqual(t, string(data), text, "nothing was changed")
	require.NoError(t, os.WriteFile(score, []byte(text), 0o600))
	code, out, messages := call(t, newVerifyCmd, "", append(flags, path, score)...)
	require.Empty(t, messages)
	return code, out
}

// nthNote changes note n (from 0) of the file, rests included.
func nthNote(n int, change func(string) string) func(string) string {
	notes := regexp.MustCompile(`(?s)<note>.*?</note>`)
	return func(text string) string {
		at := notes.FindAllStringIndex(text, -1)[n]
		return text[:at[0]] + change(text[at[0]:at[1]]) + text[at[1]:]
	}
}

func replace(old, new string) func(string) string {
	return func(s string) string { return strings.Replace(s, old, new, 1) }
}

// Each edit is one slip of a hand, and each must be told as one difference.
// Bar 1 is written: dotted quarter C5, then G5 of five eighths in two notes.
func TestVerifyTellsEachEdit(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(string) string
		want   []string
	}{
		{"another pitch", nthNote(0, replace("<step>C</step>", "<step>D</step>")),
			[]string{"bar 1 beat 1: Barge has D5, spec says C5"}},
		{"an octave", nthNote(0, replace("<octave>5</octave>", "<octave>4</octave>")),
			[]string{"bar 1 beat 1: Barge has C4, spec says C5"}},
		{"a note becomes a rest", nthNote(0, func(s string) string {
			return regexp.MustCompile(`(?s)<pitch>.*?</pitch>`).ReplaceAllString(s, "<rest/>")
		}),
			[]string{"bar 1 beat 1: Barge lacks C5"}},
		{"a note is left out and the next closes up", nthNote(0, func(string) string { return "" }),
			[]string{"Barge: bar 1 holds 5/8, it should be 1", "bar 1 beat 1: Barge lacks C5", "bar 1 beat 1: Barge has G5 3/8 early, spec says bar 1 beat 2½"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			code, out := edited(t, bargeSpec, c.change)
			assert.Equal(t, differs, code)
			lines := strings.Split(strings.TrimSpace(out), "\n")
			assert.ElementsMatch(t, c.want, lines[:len(lines)-1], out)
		})
	}
}

// A new note of an eighth put in at the start moves the rest of the bar, and
// is one extra note, one moved note and one bar that is too long; the bars
// after it are untouched.
func TestVerifyTellsAnInsertedNoteOnce(t *testing.T) {
	code, out := edited(t, bargeSpec, nthNote(0, func(s string) string {
		duration := regexp.MustCompile(`<duration>(\d+)</duration>`).FindString(s)
		short := strings.Replace(s, duration, "<duration>1</duration>", 1)
		return strings.Replace(short, "<step>C</step>", "<step>B</step>", 1) + s
	}))
	assert.Equal(t, differs, code)
	assert.Less(t, strings.Count(out, "\n"), 7, out)
	assert.NotContains(t, out, "bar 3", out)
}

// A quarter rest before everything moves it all: one difference.
func TestVerifyTellsAMoveOfEverythingOnce(t *testing.T) {
	moved := strings.Replace(bargeSpec, "pitches: C5 G5", "pitches: C5 G5\n    offset: 2", 1)
	dir := t.TempDir()
	one, two := filepath.Join(dir, "one.yaml"), filepath.Join(dir, "two.yaml")
	require.NoError(t, os.WriteFile(one, []byte(bargeSpec), 0o600))
	require.NoError(t, os.WriteFile(two, []byte(moved), 0o600))
	score := filepath.Join(built(t, two), "score.musicxml")
	code, out, _ := call(t, newVerifyCmd, "", one, score)
	assert.Equal(t, differs, code)
	// The last of its onsets, 27 eighths, comes at 29: five eighths into bar 4.
	assert.Contains(t, out, "bar 1 beat 2: from here to bar 4 beat 3½ Barge is 1/4 late (8 notes)")
	assert.NotContains(t, out, "lacks")
	assert.NotContains(t, out, "extra")
	assert.Equal(t, 2, strings.Count(out, "\n"), "that the end cuts the last note follows: %s", out)
}

func TestVerifyRhythmOnly(t *testing.T) {
	code, out := edited(t, bargeSpec, nthNote(0, replace("<step>C</step>", "<step>D</step>")), "--rhythm-only")
	assert.Equal(t, done, code, out)
	code, out = edited(t, bargeSpec, nthNote(0, func(s string) string {
		return regexp.MustCompile(`(?s)<pitch>.*?</pitch>`).ReplaceAllString(s, "<rest/>")
	}), "--rhythm-only")
	assert.Equal(t, differs, code)
	assert.Contains(t, out, "bar 1 beat 1: Barge lacks a note\n")
}

func TestVerifyTellsALostMark(t *testing.T) {
	spec := strings.Replace(bargeSpec, "groups: 3+5", "groups: 3+4", 1) // meets the barline after 56 eighths
	spec = strings.Replace(spec, "length: 4 bars", "length: 8 bars", 1)
	code, out := edited(t, spec, replace(">A1<", ">Z9<"))
	assert.Equal(t, differs, code)
	assert.Equal(t, "bar 8 beat 1: the mark A1 is missing\n1 difference (compared: Barge, 19 notes; not compared: "+notCompared+").\n", out)
}

func TestVerifyMatchesPartsByHand(t *testing.T) {
	code, out := edited(t, bargeSpec, replace("<part-name>Barge</part-name>", "<part-name>Fl. 1</part-name>"), "--part", "Fl. 1=Barge")
	assert.Equal(t, done, code, out)
	assert.Equal(t, "The same music: Barge, 8 notes (not compared: "+notCompared+").\n", out)
}

func TestVerifyJSON(t *testing.T) {
	code, out := edited(t, bargeSpec, nthNote(0, replace("<step>C</step>", "<step>D</step>")), "--json")
	assert.Equal(t, differs, code)
	var got map[string]any
	require.NoError(t, json.Unmarshal([]byte(out), &got))
	assert.EqualValues(t, 1, got["version"])
	assert.Equal(t, false, got["same"])
	difference := got["differences"].([]any)[0].(map[string]any)
	assert.Equal(t, map[string]any{"kind": "pitch", "layer": "Barge", "bar": "1", "pass": 1.0, "beat": 1.0, "time": "0", "want": "C5", "got": "D5",
		"text": "bar 1 beat 1: Barge has D5, spec says C5"}, difference)
}
