package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// builtScore builds a spec's score and returns its path.
func builtScore(t *testing.T, spec string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "spec.yaml")
	require.NoError(t, os.WriteFile(path, []byte(spec), 0o600))
	return filepath.Join(built(t, path), "score.musicxml")
}

// foundAll finds a whole spec in a score whose text is changed before, and
// returns it with what is said besides.
func foundAll(t *testing.T, score string, change func(string) string) (spec, messages string) {
	t.Helper()
	data, err := os.ReadFile(score)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(score, []byte(change(string(data))), 0o600))
	code, spec, messages := call(t, newFindCmd, "", score, "--all")
	require.Equal(t, done, code, messages)
	return spec, messages
}

func same(s string) string { return s }

// The meters of a score are taken over, and the bars of the score that is built
// from what was found are the same.
func TestFindAllTakesTheMetersOver(t *testing.T) {
	const layers = "layers:\n  - name: Barge\n    instrument: flute\n    groups: 3+2+2\n    pitches: C5 D5 E5\n"
	for name, c := range map[string]struct{ spec, want string }{
		"by turns":  {"title: Lock\nmeter: [4/4, 3/4, 5/8]\nlength: 9 bars\n" + layers, "meter: [4/4, 3/4, 5/8]\n"},
		"a change":  {"title: Lock\nmeter: 4/4\nlength: 9 bars\n" + layers + "plan:\n  - {at: bar 4, meter: 3+2+2/8}\n", "meter: 4/4\n"},
		"and again": {"title: Lock\nmeter: 4/4\nlength: 9 bars\n" + layers + "plan:\n  - {at: bar 4, meter: [3/4, 2/4]}\n", "plan:\n  - {at: bar 4, meter: [3/4, 2/4]}\n"},
	} {
		t.Run(name, func(t *testing.T) {
			score := builtScore(t, c.spec)
			text, _ := foundAll(t, score, same)
			assert.Contains(t, text, c.want)
			if _, plan, ok := strings.Cut(c.spec, "plan:\n"); ok {
				assert.Contains(t, text, plan)
			}
			again := builtScore(t, text)
			assert.Equal(t, signatures(t, score), signatures(t, again), text)
		})
	}
}

// signatures lists the first part's bars.
func signatures(t *testing.T, score string) (all []string) {
	t.Helper()
	read, err := readScore(streams{}, score)
	require.NoError(t, err)
	for _, bar := range read.Parts[0].Bars {
		all = append(all, bar.Meter)
	}
	return all
}

// Whatever parts and pieces are called, what is found can be built.
func TestFindAllGivesEachPartAName(t *testing.T) {
	const spec = "title: Lock\nmeter: 4/4\nlength: 4 bars\nlayers:\n  - name: Gate\n    instrument: flute\n    groups: 3+5\n    pitches: C5 G5\n" +
		"  - name: Lock\n    instrument: flute\n    groups: 2+6\n    pitches: C5 G5\n"
	for name, c := range map[string]struct{ one, two, want, told string }{
		"twice the same": {"Gate", "Gate", "Gate (2)", "several parts are called Gate; one is now Gate (2)\n"},
		"blank":          {"Gate", " \u202e\n ", "Part 2", ""},
		"of two lines":   {"Gate", "Low\ngate: #1 {x}", `"Low gate: #1 {x}"`, ""},
	} {
		text, told := foundAll(t, builtScore(t, spec), func(s string) string {
			s = strings.Replace(s, "<movement-title>Lock", "<movement-title>A: \n[b] # c", 1)
			return strings.NewReplacer("<part-name>Gate", "<part-name>"+c.one, "<part-name>Lock", "<part-name>"+c.two).Replace(s)
		})
		assert.Contains(t, text, "  - name: "+c.want+"\n", name)
		assert.Contains(t, text, `title: "A: [b] # c"`, name)
		assert.Equal(t, c.told, told, name)
		builtScore(t, text)
	}
}

// What the file says of a part decides which instrument it becomes; what it does
// not say is told as a guess.
func TestFindAllChoosesInstruments(t *testing.T) {
	score := func(instrument, pitches string) string {
		return "title: Lock\nmeter: 4/4\nlength: 4 bars\nlayers:\n  - name: Gate\n    instrument: " + instrument + "\n    groups: 3+5\n    pitches: " + pitches + "\n"
	}
	drop := func(tags ...string) func(string) string {
		return func(s string) string {
			for _, tag := range tags {
				i, j := strings.Index(s, "<"+tag), strings.Index(s, "</"+tag+">")
				s = s[:i] + s[j+len("</"+tag+">"):]
			}
			return s
		}
	}
	for name, c := range map[string]struct {
		spec   string
		change func(string) string
		want   string
		told   string
	}{
		"the instrument's name": {score("vibraphone", "C5 G5"), drop("instrument-sound", "midi-program"), "vibraphone", ""},
		"the standard sound":    {score("vibraphone", "C5 G5"), func(s string) string { return strings.Replace(s, ">Vibraphone<", ">Tin<", 1) }, "vibraphone", ""},
		"the program":           {score("vibraphone", "C5 G5"), drop("score-instrument"), "piano", "Gate: the file does not say which instrument it is; piano is a guess\n"},
		"the program, no sound": {score("vibraphone", "C5 G5"), func(s string) string { return drop("instrument-sound")(strings.Replace(s, ">Vibraphone<", ">Tin<", 1)) }, "vibraphone", "Gate: taken for vibraphone, by its MIDI program 12\n"},
		"the clef":              {score("cello", "C3 G3"), drop("midi-instrument", "score-instrument"), "cello", "Gate: the file does not say which instrument it is; cello is a guess\n"},
		"the part's name":       {score("vibraphone", "C5 G5"), func(s string) string { return strings.Replace(s, "<part-name>Gate<", "<part-name>Marimba II<", 1) }, "marimba", ""},
		"a name out of range":   {score("piano", "C2 G2"), func(s string) string { return strings.Replace(s, "<part-name>Gate<", "<part-name>Flute<", 1) }, "piano", ""},
		// middle of C4 and G4: 63½; of alto's range (common practice) 65, tenor's 60, mezzo-soprano's 69
		"a voice":                {score("flute", "C4 G4"), func(s string) string { return strings.Replace(s, "<part-name>Gate<", "<part-name>Voice 2<", 1) }, "alto", "Voice 2: taken for alto, the voice in whose range it lies\n"},
		"a drum by its sound":    {score("snare drum", "snare snare"), same, "snare drum", ""},
		"a drum without a sound": {score("claves", "claves claves"), func(s string) string { return strings.Replace(s, "<part-name>Gate<", "<part-name>Claves<", 1) }, "claves", ""},
	} {
		t.Run(name, func(t *testing.T) {
			text, told := foundAll(t, builtScore(t, c.spec), c.change)
			assert.Contains(t, text, "    instrument: "+c.want+"\n")
			assert.Equal(t, c.told, told)
			if c.told != "" {
				assert.Contains(t, text, "# "+c.told)
			}
		})
	}
}

// A freely played MIDI file has no pulse in its ticks; the message says how it
// is read. Two notes of 480 and 487 ticks, 480 a quarter.
func TestFindSaysHowToReadAPlayedFile(t *testing.T) {
	path := filepath.Join(t.TempDir(), "taps.mid")
	require.NoError(t, os.WriteFile(path, []byte("MThd\x00\x00\x00\x06\x00\x00\x00\x01\x01\xe0MTrk\x00\x00\x00\x16\x00\x90\x3c\x40\x83\x60\x80\x3c\x00\x00\x90\x3e\x40\x83\x67\x80\x3e\x00\x00\xff\x2f\x00"), 0o600))
	code, _, messages := call(t, newFindCmd, "", path)
	assert.Equal(t, wrongData, code)
	assert.Contains(t, messages, "the attacks have no common pulse: 1/1920 of a whole note would be needed; if it was played freely, write --onsets "+path)
}

// Two hands of a drummer share a voice; their loops, 5 and 7 eighths long, are found
// again, and the score sounds the spec that is found.
func TestFindAllTakesADrummerApart(t *testing.T) {
	path := filepath.Join(t.TempDir(), "kit.yaml")
	require.NoError(t, os.WriteFile(path, []byte(`title: Lock Drums
meter: 4/4
length: 10 bars
layers:
  - {name: Hat, player: Kit, instrument: drum set, groups: 3+2, pitches: closed hi-hat}
  - {name: Hand, player: Kit, instrument: drum set, groups: 4+3, pitches: snare}
  - {name: Foot, player: Kit, instrument: drum set, groups: 3+3+2, pitches: kick}
`), 0o600))
	score := filepath.Join(built(t, path), "score.musicxml")
	text := findText(t, "", score, "--all")
	assert.Contains(t, text, "    groups: 3+2\n    pitches: closed hi-hat\n")
	assert.Contains(t, text, "    groups: 4+3\n    pitches: snare\n")
	assert.Contains(t, text, "    groups: 3+3+2\n    pitches: kick\n")
	second := filepath.Join(t.TempDir(), "found.yaml")
	require.NoError(t, os.WriteFile(second, []byte(text), 0o600))
	again := filepath.Join(built(t, second), "score.musicxml")
	for _, spec := range []string{path, second} {
		for _, s := range []string{score, again} {
			code, out, messages := call(t, newVerifyCmd, "", spec, s)
			assert.Empty(t, withoutMarks(out), "%s%s", messages, text)
			assert.Contains(t, []int{done, differs}, code)
		}
	}
}
