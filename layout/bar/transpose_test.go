package bar

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/score"
	"tieover/score/instrument"
)

// Instruments of the orchestra by how much lower they sound: letters, half
// steps, octaves. Common practice.
var transposing = map[string]instrument.Instrument{
	"flute":         {},
	"bass":          {Octave: -1},
	"bells":         {Octave: 2},
	"clarinet":      {Diatonic: -1, Chromatic: -2},             // in B flat
	"bass clarinet": {Diatonic: -1, Chromatic: -2, Octave: -1}, // in treble clef
	"A clarinet":    {Diatonic: -2, Chromatic: -3},
	"high clarinet": {Diatonic: 2, Chromatic: 3},   // in E flat, above
	"horn":          {Diatonic: -4, Chromatic: -7}, // in F
	"alto":          {Diatonic: -5, Chromatic: -9}, // saxophone in E flat
}

// A written key is the sounding one and the interval, in fifths: for B flat two
// more, A three fewer, F one more, E flat three more; past seven signs twelve
// the other way.
func TestTransposedKeys(t *testing.T) {
	for _, c := range []struct {
		on       string
		concert  bool
		from, is int
	}{
		{"flute", false, -7, -7}, {"flute", false, 7, 7}, {"bass", false, 3, 3}, {"bells", false, -2, -2},
		{"clarinet", false, 0, 2}, {"clarinet", false, -2, 0}, {"bass clarinet", false, 0, 2},
		{"A clarinet", false, 0, -3}, {"horn", false, 0, 1}, {"alto", false, 0, 3},
		{"clarinet", false, 5, 7}, {"clarinet", false, 6, -4}, {"alto", false, 7, -2},
		{"A clarinet", false, -4, -7}, {"A clarinet", false, -5, 4}, {"A clarinet", false, -7, 2},
		{"high clarinet", false, 0, 3}, {"high clarinet", false, 5, -4}, {"clarinet", true, 6, 6}, {"A clarinet", true, -7, -7},
	} {
		i := transposing[c.on]
		tr := NewTransposer(&i, c.concert)
		assert.Equal(t, c.is, tr.KeyOf(score.Key{Fifths: c.from}).Fifths, "%s from %d", c.on, c.from)
		assert.Equal(t, c.is, tr.Key.Fifths)
	}
	i := transposing["alto"]
	tr := NewTransposer(&i, false)
	assert.Equal(t, score.Key{None: true}, tr.KeyOf(score.Key{None: true}), "no signature stays none")
	assert.Equal(t, score.Key{None: true}, tr.Key)
}

// What is written for what sounds. An interval's own result that is a double
// sign, or E sharp, B sharp, C flat, F flat outside the key, is respelt from the
// nearest letter.
func TestTransposedTones(t *testing.T) {
	clarinet := transposing["clarinet"]
	w, _, respelt := NewTransposer(&clarinet, false).Written(score.Tone{Drum: 2})
	assert.Equal(t, score.Tone{Drum: 2}, w, "a drum is where it is")
	assert.False(t, respelt)
	for _, c := range []struct {
		on         string
		concert    bool
		key        int
		sounds, is string
		avoided    string // "" for nothing
	}{
		{"flute", false, 0, "Cb4", "Cb4", ""},
		{"flute", false, 0, "F##4", "F##4", ""},
		{"bass", false, 0, "E2", "E3", ""},
		{"bass", false, 0, "B#1", "B#2", ""}, // an octave changes no spelling
		{"bells", false, 0, "C6", "C4", ""},
		{"bells", false, 0, "Fb7", "Fb5", ""},
		{"clarinet", false, 0, "Bb3", "C4", ""},
		{"clarinet", false, 0, "A3", "B3", ""},
		{"clarinet", false, 0, "B3", "C#4", ""},
		{"bass clarinet", false, 0, "Bb2", "C4", ""},
		{"A clarinet", false, 0, "A3", "C4", ""},
		{"horn", false, 0, "F3", "C4", ""},
		{"alto", false, 0, "Eb3", "C4", ""},
		{"alto", false, 0, "A4", "F#5", ""},
		{"high clarinet", false, 0, "C5", "A4", ""},
		{"high clarinet", false, 0, "Eb4", "C4", ""},
		{"clarinet", false, 0, "Db4", "Eb4", ""}, // E flat and B flat are plain, as F sharp and C sharp
		{"clarinet", false, 0, "Ab3", "Bb3", ""},
		{"bells", false, 0, "B1", "B-1", ""}, // below C0
		{"clarinet", true, 0, "Bb3", "Bb3", ""},
		{"bass clarinet", true, 0, "Bb2", "Bb3", ""},

		{"clarinet", false, 0, "D#4", "F4", "E#4"},
		{"clarinet", false, 4, "D#4", "E#4", ""}, // F sharp major has it
		{"clarinet", false, 0, "A#3", "C4", "B#3"},
		{"clarinet", false, 5, "A#3", "B#3", ""}, // C sharp major has it
		{"horn", false, 0, "Fb4", "B4", "Cb5"},
		{"horn", false, 0, "Bbb3", "E4", "Fb4"},
		{"alto", false, -7, "Fb4", "Db5", ""},
		{"A clarinet", false, -4, "Ab3", "Cb4", ""}, // C flat major has it
		{"A clarinet", false, -4, "Db4", "Fb4", ""},
		{"alto", false, 0, "A#4", "G5", "F##5"},
		{"alto", false, 0, "Ebb4", "B4", "Cb5"},
		{"alto", false, 0, "D#4", "C5", "B#4"},

		// Where the key itself was respelt an interval's own result may be further away.
		{"clarinet", false, 6, "Cbb4", "C4", "Ebbbb4"},
		{"clarinet", false, 6, "Fbb4", "F4", "Abbbb4"},
		{"clarinet", false, 6, "Gb4", "Ab4", "Bbbb4"},
		{"A clarinet", false, -7, "D##4", "G4", "E###4"},
		{"A clarinet", false, -7, "C##4", "F4", "D###4"},
		{"A clarinet", false, -7, "G##4", "C5", "A###4"},
		{"A clarinet", false, -7, "B##4", "E5", "C####5"},
	} {
		i := transposing[c.on]
		tr := NewTransposer(&i, c.concert)
		tr.KeyOf(score.Key{Fifths: c.key})
		w, instead, respelt := tr.Written(tone(t, c.sounds))
		assert.Equal(t, c.is, w.String(), "%s: %s", c.on, c.sounds)
		assert.Equal(t, c.avoided != "", respelt, "%s: %s", c.on, c.sounds)
		if respelt {
			assert.Equal(t, c.avoided, instead.String())
		} else {
			assert.Equal(t, w, instead)
		}
	}
}
