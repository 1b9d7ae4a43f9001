package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Everything a spec can say must sound as it says when the score is read back.
func TestVerifyFeatures(t *testing.T) {
	const head = "title: Lock\nmeter: 4/4\n"
	const two = "layers:\n  - name: Gate\n    instrument: marimba\n    groups: 3+2+2\n    pitches: C5 E5 G5\n  - name: Sluice\n    instrument: bass clarinet\n    groups: 3+3+2\n    pitches: C3 E3\n"
	for name, spec := range map[string]string{
		"land":               head + "end: land\n" + two,
		"land, one has left": head + "length: 4 bars\nend: land\n" + strings.Replace(two, "C5 E5 G5\n", "C5 E5 G5\n    leaves: bar 3\n", 1),
		"repeat in a bar":    head + "length: 27 pulses\nend: repeat\n" + two,
		"short exception":    head + "length: 7 bars\n" + two + "    except:\n      - {bar: 2, groups: 2+1}\n",
		"repeat":             head + "end: repeat\n" + two,
		"slashes, land":      "title: Lock\nlength: 1 return\nend: land\nlayers:\n  - {name: Gate, groups: 1+1, written: slashes}\n  - {name: Sluice, groups: 1+1}\n",
		"tails cut":          head + two + "    tails: cut\n",
		"offset":             head + "length: 9 bars\n" + two + "    offset: 3\n",
		"figures":            head + two + "    figures: {3: x.x, 2: xx}\n",
		"half pulses":        head + two + "    figures: {3: x=xx.x}\n",
		"enters":             head + "length: 12 bars\n" + two + "    enters: bar 3\n    leaves: bar 9\n",
		"cut":                head + "length: 12 bars\n" + two + "    loop: cut every 2 bars\n",
		"quintuplets":        head + "length: 8 bars\n" + two + "    pulse: 1/16 in 5:4\n",
		"triplets":           strings.Replace(head, "4/4", "7/8", 1) + "length: 8 bars\n" + two + "    pulse: 1/8 in 3:2\n",
		"short end":          head + "length: 27 pulses\n" + two,
		"meters":             strings.Replace(head, "4/4", "[4/4, 3/4, 5/8]", 1) + "length: 9 bars\n" + two,
		"meter change":       head + "length: 9 bars\n" + two + "plan:\n  - {at: bar 4, meter: 6/8}\n",
		"one player":         head + "length: 7 bars\nlayers:\n  - name: Hands\n    player: Kit\n    instrument: drum set\n    groups: 3+2\n    pitches: snare closed hi-hat\n  - name: Feet\n    player: Kit\n    instrument: drum set\n    groups: 3+4\n    pitches: kick\n",
		"exceptions":         head + "length: 7 bars\n" + two + "    except:\n      - {cycle: 2, groups: 2+2+2+2}\n      - {bar: 5, rest: yes}\n",
		"chords":             head + "length: 7 bars\n" + strings.Replace(two, "C5 E5 G5", "C5+E5 G4 G4+B4", 1),
	} {
		for _, view := range []string{"common", "own", "layer:Gate"} {
			if view == "layer:Gate" && !strings.Contains(spec, "Gate") || view != "common" && strings.Contains(name, "meter") {
				continue
			}
			t.Run(name+" "+view, func(t *testing.T) {
				path := filepath.Join(t.TempDir(), "spec.yaml")
				require.NoError(t, os.WriteFile(path, []byte(spec), 0o600))
				dir := t.TempDir()
				code, _, messages := call(t, newBuildCmd, "", path, "-o", dir, "--only", "musicxml", "--view", view)
				require.True(t, code == done || view != "common", messages)
				if code != done { // what this view cannot write is refused, and there is nothing to compare
					t.Skip(messages)
				}
				scores, err := filepath.Glob(dir + "/*.musicxml")
				require.NoError(t, err)
				parts, err := filepath.Glob(dir + "/parts/*.musicxml")
				require.NoError(t, err)
				for _, score := range append(scores, parts...) {
					code, out, messages := call(t, newVerifyCmd, "", path, score)
					assert.Equal(t, done, code, "%s: %s%s", filepath.Base(score), out, messages)
				}
			})
		}
	}
}

// What build writes besides plain scores sounds like the spec too: the same
// music twice on a page, a partner's line, cues, folds beside a repeat; also
// when a program that saves it again has dropped the boxes round its words.
func TestVerifyReadsEveryBuild(t *testing.T) {
	if testing.Short() {
		t.Skip("long, and does nothing that others do not do as well where races are watched")
	}
	const gates = "title: Lock\nmeter: 4/4\nlength: 4 realignments\n%slayers:\n  - {name: Gate, instrument: marimba, groups: 3+3+2, pitches: C4 D4 E4}\n" +
		"  - {name: Sluice, instrument: oboe, groups: 3+2+2, pitches: C5 D5 E5, enters: bar 8}\n  - {name: Drum, instrument: snare drum, groups: 5+2}\n" +
		"realign: [Gate, Drum]\n"
	for _, end := range []string{"", "end: repeat\n", "end: land\n"} {
		path := filepath.Join(t.TempDir(), "spec.yaml")
		require.NoError(t, os.WriteFile(path, []byte(fmt.Sprintf(gates, end)), 0o600))
		for _, flags := range [][]string{
			{"--compare", "layer:Sluice"}, {"--compare", "common", "--view", "layer:Gate"}, {"--partner", "Gate"}, {"--partner", "Drum"},
			{"--cues", "notes"}, {"--fold"}, {"--fold", "--partner", "Gate"},
		} {
			t.Run(end+strings.Join(flags, " "), func(t *testing.T) {
				dir := t.TempDir()
				code, _, messages := call(t, newBuildCmd, "", append([]string{path, "-o", dir, "--only", "musicxml"}, flags...)...)
				require.Equal(t, done, code, messages)
				assert.Equal(t, flags[0] == "--fold" && end == "end: repeat\n", strings.Contains(messages, "section 1 is repeated as a whole (end: repeat), so nothing in it is folded"), messages)
				files, err := filepath.Glob(dir + "/*.musicxml")
				require.NoError(t, err)
				parts, err := filepath.Glob(dir + "/parts/*.musicxml")
				require.NoError(t, err)
				for _, file := range append(files, parts...) {
					data, err := os.ReadFile(file)
					require.NoError(t, err)
					require.NoError(t, os.WriteFile(file, []byte(strings.ReplaceAll(string(data), ` enclosure="rectangle"`, "")), 0o600))
					code, out, messages := call(t, newVerifyCmd, "", path, file)
					assert.Equal(t, done, code, "%s: %s%s", filepath.Base(file), out, messages)
				}
			})
		}
	}
}

// 4 bars of 4/4 in eighths: a score that has them twice is 32 attacks, not 64.
func TestFindReadsOneOfTwoWritings(t *testing.T) {
	path := filepath.Join(t.TempDir(), "spec.yaml")
	require.NoError(t, os.WriteFile(path, []byte("title: Lock\nlength: 4 bars\nlayers:\n  - {name: Gate, instrument: marimba, groups: 1, pitches: C4 D4 E4}\n"), 0o600))
	dir := t.TempDir()
	code, _, messages := call(t, newBuildCmd, "", path, "-o", dir, "--only", "musicxml", "--compare", "layer:Gate")
	require.Equal(t, done, code, messages)
	assert.Contains(t, findText(t, "", dir+"/score.musicxml"), "Gate: 32 attacks in 32 eighths\n")
}

// Scores larger than what is read again are told.
func TestBuildTellsScoresTooLarge(t *testing.T) {
	for _, flags := range [][]string{{}, {"--compressed"}} {
		dir := built(t, round, flags...)
		var p plan
		for _, name := range []string{"score.musicxml", "score.mxl", "chart.txt", "section.mid"} {
			p.files = append(p.files, output{name: name})
		}
		p.tooLarge(dir, 64<<20)
		assert.Empty(t, p.remarks)
		p.tooLarge(dir, 10<<10)
		require.Len(t, p.remarks, 1)
		assert.Contains(t, p.remarks[0], "note: score.m")
		assert.Contains(t, p.remarks[0], "verify and find read scores of up to")
	}
}
