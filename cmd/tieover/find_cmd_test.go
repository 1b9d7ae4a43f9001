package main

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Costs are added by hand from the definition: kind 3, each size in gamma
// code, how many sizes and values, the values, how many attacks in all.
func TestFindDurations(t *testing.T) {
	// 3+2+2 four times: kind 3, sizes 3 and 2 take 3 each, two sizes 3, three
	// values 3 and one bit each, twelve attacks 7 = 25. As it stands: 3, 6, 3,
	// twelve values 7 and a bit each = 31.
	const want = "Line: 12 attacks in 28 eighths\n 1. 3+2+2 (7 pulses), 4 times\n    25.0 bits, saves 6.0: weak\n"
	assert.Equal(t, want, findText(t, "", strings.Fields("3 2 2 3 2 2 3 2 2 3 2 2")...))
	assert.Equal(t, want, findText(t, "3 2 2, 3 2 2\n3 2 2 3 2 2\n"))
	assert.Equal(t, want, findText(t, "", "3+2+2+3+2+2", "3+2+2+3+2+2"))
	assert.Equal(t, want, findText(t, "", "x==x=x=x==x=x=", "x==x=x=x==x=x="))
	code, _, messages := say("find", "3", "2", "r2")
	assert.Equal(t, wrongData, code)
	assert.Contains(t, messages, `"r2" is no duration; write numbers of pulses, rest 2 for a silence of 2, or a box such as x..x`)
	out := findText(t, "", strings.Fields("3 rest 1 2 3 rest 1 2 3 rest 1 2")...)
	assert.Contains(t, out, " 1. 3+rest 1+2 (6 pulses), 3 times\n")
}

func TestFindSaysWhenThereIsNoPattern(t *testing.T) {
	// 3+2+3+2+2 twice: kind 3, sizes 6, two sizes 3, five values 5 and a bit each,
	// ten attacks 7 = 29; as it stands 3, 6, 3, ten values 7 and a bit each = 29.
	assert.Equal(t, "Line: 10 attacks in 24 eighths\n 1. 3+2+3+2+2 (12 pulses), 2 times\n    29.0 bits, saves nothing: weak\n",
		findText(t, "", strings.Fields("3 2 3 2 2 3 2 3 2 2")...))
	out := findText(t, "", strings.Fields("3 5 2 7 4 1 1 6")...)
	assert.Equal(t, "Line: 8 attacks in 29 eighths\nno pattern: 8 values as they stand (64.5 bits)\n", out)
	assert.Contains(t, findText(t, "", "4"), "Line: 1 attack in 4 eighths\n")
}

func TestFindListsTies(t *testing.T) {
	// x.. three times with blanks: as groups of one and as a phase nothing
	// differs in cost; both must be listed and said to be equally short.
	out := findText(t, "", strings.Fields("xxx.xx.x.xx. xx.xx.x.xx.x x.xx.x.xx.xx .xx.x.xx.xxx")...)
	assert.Contains(t, out, "equally short")
}

func TestFindRefuses(t *testing.T) {
	for _, c := range []struct {
		code int
		args string
		want string
	}{
		{wrongData, "3 two", `"two" is no duration`},
		{wrongData, "3 -2", "unknown shorthand"},
		{wrongData, "3 0", "duration 2 is 0"},
		{wrongData, "rest", "how long is the last rest?"},
		{wrongUse, "3 2 --pulse 1/7", "--pulse 1/7"},
		{wrongUse, "3 2 --tolerance some", "--tolerance some"},
		{wrongUse, "3 2 --part Bell", "need a score"},
		{wrongUse, "3 2 --spec --json", "choose one"},
		{wrongData, "no-such-file.musicxml", "no-such-file.musicxml"},
	} {
		code, _, messages := call(t, newFindCmd, "", strings.Fields(c.args)...)
		if strings.Contains(c.args, "-2") { // a flag to the parser
			assert.NotEqual(t, done, code)
			continue
		}
		assert.Equal(t, c.code, code, c.args)
		assert.Contains(t, messages, c.want, c.args)
	}
}

// What was given is not asked for, and a comma that may be a decimal point is
// not guessed at.
func TestFindReadsWhatIsMeant(t *testing.T) {
	dir := t.TempDir()
	code, _, messages := call(t, newBuildCmd, "", round, "-o", dir, "--only", "midi")
	require.Equal(t, done, code, messages)
	file := filepath.Join(dir, "section.mid")
	for _, c := range []struct {
		code        int
		input, args string
		want, not   string
	}{
		{wrongData, "", "--onsets " + file, "several parts: Marimba, Vibraphone; choose one with --part, or take --all", ""},
		{wrongData, "0,5\n1,0\n1,5\n", "--onsets -", `line 1: "0,5" may be one number or two; write 0.5, or a blank between them`, ""},
		{wrongData, "", "1.5 2 2", "1.5 is no whole number of pulses; count shorter ones with --pulse, as in --pulse 1/16", ""},
	} {
		code, out, messages := call(t, newFindCmd, c.input, strings.Fields(c.args)...)
		assert.Equal(t, c.code, code, messages)
		assert.Empty(t, out)
		assert.Contains(t, messages, c.want)
		assert.False(t, c.not != "" && strings.Contains(messages, c.not), messages)
	}
	assert.Contains(t, findText(t, "0.5,1.0,1.5,2.0", "--onsets", "-"), "4 attacks")
}

func TestFindPartAndBars(t *testing.T) {
	score := filepath.Join(built(t, "../../testdata/sections/lock-keepers-round/section.yaml"), "score.musicxml")
	code, _, messages := call(t, newFindCmd, "", score)
	assert.Equal(t, wrongData, code)
	assert.Contains(t, messages, "several parts: Marimba, Vibraphone")
	// Bars 3 to 8 of six bars of five quarters: 60 eighths, six cycles of 10.
	out := findText(t, "", score, "--part", "Mar.", "--bars", "3-8")
	assert.Contains(t, out, "Marimba: 24 attacks in 60 eighths\n 1. 3+2+2+3 (10 pulses), 6 times\n")
	assert.Contains(t, out, "pitches: E5 B4 G4 D5, dealt afresh each cycle")
	code, _, messages = call(t, newFindCmd, "", score, "--part", "Mar.", "--bars", "90-91")
	assert.Equal(t, wrongData, code)
	assert.Contains(t, messages, "no bars 90-91")
}

// Four times eight pulses were typed, the last of them silent.
func TestFindKeepsASilenceAtTheEnd(t *testing.T) {
	out := findText(t, "", "x..x..x.x..x..x.x..x..x.x..x..x.", "--spec")
	assert.Contains(t, out, "length: 32 pulses\n")
}

func TestFindAllSaysWhereTheLoopsMeet(t *testing.T) {
	score := filepath.Join(built(t, "../../testdata/sections/lock-keepers-round/section.yaml"), "score.musicxml")
	out := findText(t, "", score, "--all")
	// 10 and 12 eighths meet after 60 eighths, which are six bars of 5/4.
	assert.Contains(t, out, "# all begin together again after 60 eighths, at bar 7 beat 1\n")
}

func TestFindJSON(t *testing.T) {
	var got struct {
		Version int
		Lines   []struct {
			Name         string
			Attacks      int
			Descriptions []struct {
				Pattern  bool
				Groups   string
				Strength string
				Bits     float64
			}
		}
	}
	require.NoError(t, json.Unmarshal([]byte(findText(t, "", "--json", "3", "2", "2", "3", "2", "2", "3", "2", "2", "3", "2", "2")), &got))
	assert.Equal(t, 1, got.Version)
	require.Len(t, got.Lines, 1)
	require.Len(t, got.Lines[0].Descriptions, 2)
	first := got.Lines[0].Descriptions[0]
	assert.Equal(t, "3+2+2", first.Groups)
	assert.Equal(t, "weak", first.Strength)
	assert.InDelta(t, 25, first.Bits, 1e-9)
	assert.False(t, got.Lines[0].Descriptions[1].Pattern)
}

// Taps of 3+2+2 eighths at quarter = 120, to the millisecond.
func TestFindOnsets(t *testing.T) {
	var taps strings.Builder
	taps.WriteString("# taps\n")
	at := 0.5
	for i := range 18 {
		fmt.Fprintf(&taps, "%.3f\n", at)
		at += 0.25 * float64([]int{3, 2, 2}[i%3])
	}
	out := findText(t, taps.String(), "--onsets", "-", "--tempo", "120")
	assert.Contains(t, out, "quarter = 120.0 (given), a pulse lasts 250 ms")
	assert.Contains(t, out, " 1. 3+2+2 (7 pulses), 6 times\n", "how long the last is is not known: it is given what the loop wants")
	code, _, messages := call(t, newFindCmd, "0.1 zero 3", "--onsets", "-")
	assert.Equal(t, wrongData, code)
	assert.Contains(t, messages, `line 1: "zero" is no time in seconds`)
}

// The MIDI file that build writes holds the same loops as the score.
func TestFindMIDI(t *testing.T) {
	spec := "../../testdata/sections/lock-keepers-round/section.yaml"
	dir := t.TempDir()
	code, _, messages := call(t, newBuildCmd, "", spec, "-o", dir, "--only", "midi")
	require.Zero(t, code, messages)
	out := findText(t, "", filepath.Join(dir, "section.mid"), "--all")
	assert.Contains(t, out, "groups: 3+2+2+3\n    pitches: E5 B4 G4 D5\n")
	assert.Contains(t, out, "groups: 3+3+2+2+2\n    pitches: A4 C5 D5 G4 E4\n")
	assert.Contains(t, out, "tempo: 132\n")
	path := filepath.Join(t.TempDir(), "found.yaml")
	require.NoError(t, os.WriteFile(path, []byte(out), 0o600))
	built(t, path)
}

// Two taps that no hand makes are named, whatever is found.
func TestFindNamesTapsTooClose(t *testing.T) {
	code, _, messages := call(t, newFindCmd, "0.5\n0.509\n1.0\n1.5\n", "--onsets", "-", "--tempo", "120")
	assert.Equal(t, done, code)
	assert.Contains(t, messages, "Line: taps 1 and 2 are 9 ms apart; is one of them a slip?")
}
