package spec

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What people write who know music and not yet the spec, and what they are told
// to write instead.
func TestHints(t *testing.T) {
	const piece, bell = "title: Towpath\nlength: 4 bars\n", "layers:\n  - name: Bell\n    groups: 3+2\n"
	in := map[string]string{ // where a value stands
		"tempo": piece + "tempo: %s\n" + bell, "meter": piece + "meter: %s\n" + bell, "pulse": piece + "pulse: %s\n" + bell,
		"key": piece + "key: %s\n" + bell, "realign": piece + "realign: %s\n" + bell,
		"length": "title: Towpath\nlength: %s\n" + bell, "groups": piece + "layers:\n  - {name: Bell, groups: '%s'}\n",
		"box": piece + "layers:\n  - {name: Bell, box: '%s'}\n", "pitches": piece + bell + "    instrument: marimba\n    pitches: %s\n",
		"sounds": piece + bell + "    instrument: drum set\n    pitches: %s\n", "line": piece + "layers:\n  - {name: Bell, line: '%s'}\n",
		"dynamic": piece + bell + "    dynamic: %s\n", "pan": piece + bell + "    pan: %s\n", "accent": piece + bell + "    accent: %s\n",
		"process": piece + bell + "    process: %s\n", "except": piece + bell + "    except: %s\n", "touches": piece + bell + "    touches: %s\n",
		"instrument": piece + bell + "    instrument: %s\n    pitches: C5\n", "recording": piece + bell + "recording: %s\n",
		"hairpin": piece + bell + "plan:\n  - {at: bar 1, to: bar 3, hairpin: %s}\n",
	}
	for _, c := range []struct{ key, value, hint string }{
		{"instrument", "trumpet in D", "the trumpets are trumpet (in Bb) and trumpet in c"},
		{"instrument", "Bb flute", "the flute is in C"},
		{"recording", "take.wav", "write {file: take.wav, starts: 1.283 s}"},
		{"tempo", "132,5", "write a point in decimals: 132.5"},
		{"tempo", "120 bpm", "write 120 alone"},
		{"tempo", "quarter = 88bpm", "write 88 alone"},
		{"tempo", "Allegro", "write Allegro 132"},
		{"meter", "4/4, 2/4", "write [4/4, 2/4]"},
		{"meter", "(3+2+2)/8", "write 3+2+2/8"},
		{"meter", "4-4", "write 4/4"},
		{"line", "x 3, y 2", "write x"},
		{"line", "E5 2", "write x"},
		{"meter", "3/4;", "write 3/4"},
		{"meter", "C", "write 4/4"},
		{"meter", "cut time", "write 2/2"},
		{"meter", "3+2+2", "write 3+2+2/8, or another note value"},
		{"pulse", "8", "write 1/8"},
		{"pulse", "8th", "write 1/8"},
		{"pulse", "16ths", "write 1/16"},
		{"pulse", "1/8.", "write 3/16 for the dotted value"},
		{"pulse", "dotted 1/8", "write 3/16 for the dotted value"},
		{"pulse", "1/8 triplet", "write 1/8 in 3:2"},
		{"pulse", "1/8T", "write 1/8 in 3:2"},
		{"pulse", "triplets", "say of which value, as in triplet eighth"},
		{"pulse", "triplet", "say of which value, as in triplet eighth"},
		{"pulse", "1/8in3:2", "write 1/8 in 3:2"},
		{"key", "c", "write C major"},
		{"dynamic", "MF", "write it small: mf"},
		{"pulse", "3:2", "write the value too, as in 1/8 in 3:2"},
		{"pulse", "eigth", "did you mean eighth?"},
		{"pulse", "5/16", "write 1/16 and count groups in it"},
		{"key", "Dm", "write D minor"},
		{"key", "Bb", "write Bb major"},
		{"key", "d minor", "write D minor"},
		{"key", "2#", "write 2 sharps"},
		{"realign", "Bell, Gate", "several names stand in [A, B]"},
		{"length", "8", "say of what: 8 bars, pulses, realignments or returns"},
		{"length", "8 measures", "write 8 bars"},
		{"groups", "3-3-2", "join the sizes by +: 3+3+2"},
		{"groups", "3,3,2", "join the sizes by +, not by commas"},
		{"groups", "3*2+2", "repeat a group by x: 3x2"},
		{"groups", "(3+2)*2", "repeat by x: (3+2)x2"},
		{"groups", "2(3+2)", "write + between two groups; what is repeated comes first, as in (3+2)x2"},
		{"groups", "3/8+2/8", "write sizes in pulses, and what a pulse is once, as pulse: 1/8"},
		{"groups", "3+r2", "a blank is written rest 2"},
		{"box", "X..x", "write a small x"},
		{"box", "x..x|x..x", "leave barlines out; blanks may divide the signs"},
		{"pitches", "Cis4", "write C#4"},
		{"pitches", "Es4", "write Eb4"},
		{"pitches", "F4#", "write F#4"},
		{"pitches", "Fs4", "write F#4"},
		{"pitches", "E", "add the octave, as in E4"},
		{"pitches", "Bb", "add the octave, as in Bb4"},
		{"pitches", "H4", "write B, or Bb"},
		{"pitches", "E4-G4", "join the notes of a chord by +, as in G3+D4; write each note out"},
		{"pitches", "“B4”", "write B4 without quotes"},
		{"sounds", "hi-hat", "write closed hi-hat"},
		{"sounds", "bass drum", "write kick"},
		{"sounds", "kick \"snare\"", "write the names of sounds without quotes"},
		{"line", "x 2, r 1", "write rest, as in rest 1/4"},
		{"line", "x 2 x 3", "write a comma behind each length"},
		{"dynamic", "mezzo-forte", "write mf"},
		{"accent", "staccato", "write none, group or all"},
		{"pan", "left", "write digits only, from -90 to 90"},
		{"hairpin", "cresc.", "write crescendo"},
		{"hairpin", "dim.", "write diminuendo"},
		{"process", "rotate", "write {rotate: {by: 1}}"},
		{"process", "grow 1", "write {grow: {group: 1, by: 1, from: 2}}"},
		{"process", "longer", "write {rotate: {by: 1}}, or another process"},
		{"process", "{rotate: 1}", "write {by: 1}"},
		{"process", "{grow: 1}", "write {group: 1, by: 1, from: 2}"},
		{"process", "{shift: {by: 1, until: realignment}}", "until is a key of a process"},
		{"meter", "4", "write 4/4, or another note value"},
		{"process", "{grow: {group: 1, from: nobody}}", "write the number of the group that gives, or none"},
		{"except", "{cycle 3: 5+2}", "did you mean cycle?"},
		{"except", "3", "write {cycle: 3, groups: 5+2}"},
		{"touches", "[plain, ghost]", "write the words one after another: staccato plain"},
	} {
		_, problems := Read([]File{{"hint.yaml", []byte(fmt.Sprintf(in[c.key], c.value))}})
		require.Len(t, problems, 1, "%s: %s", c.key, c.value)
		assert.Equal(t, c.hint, problems[0].Hint, "%s: %s", c.key, c.value)
	}
}
