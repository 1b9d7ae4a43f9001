package grammar

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/score"
	"tieover/score/beat"
	"tieover/score/instrument"
)

func items3(sizes ...int) []score.Item { // a negative size is a rest
	var all []score.Item
	for _, n := range sizes {
		all = append(all, score.Item{Size: max(n, -n), Blank: n < 0})
	}
	return all
}

func TestGroups(t *testing.T) {
	for text, want := range map[string][]score.Item{
		"5":             items3(5),
		"3+2+2":         items3(3, 2, 2),
		" 3 + 2 +2 ":    items3(3, 2, 2),
		"3x4":           items3(3, 3, 3, 3),
		"3 + rest 2":    items3(3, -2),
		"rest 2x2+1":    items3(-2, -2, 1),
		"(3+2)x2":       items3(3, 2, 3, 2),
		"(3+2)":         items3(3, 2),
		"((3+2)x2+3)x2": items3(3, 2, 3, 2, 3, 3, 2, 3, 2, 3),
		"4096":          items3(4096),
		"3\n  +2":       items3(3, 2),
	} {
		got, bad := Groups(text)
		if assert.Nil(t, bad, text) {
			assert.Equal(t, want, got, text)
		}
	}
	got, bad := Groups("(1x64)x64")
	require.Nil(t, bad)
	assert.Len(t, got, 4096)
	_, bad = Groups("(1x64)x64+1")
	require.NotNil(t, bad)
	assert.Equal(t, "a cycle has more than 4096 groups", bad.Text)
	_, bad = Groups("((((((((1)x9999999999)x9999999999)x9999999999)x9999999999)x9999999999)x9999999999)x9999999999)x9999999999")
	require.NotNil(t, bad, "counted before it is made")
}

func TestBoxGroups(t *testing.T) {
	for text, want := range map[string][]score.Item{
		"x":          items3(1),
		"x==x=x..":   items3(3, 2, 3),
		"..x.x":      items3(-2, 2, 1),
		"=x=":        items3(-1, 2),
		"x..x.  x.x": items3(3, 2, 2, 1),
	} {
		signs, bad := Box(text)
		require.Nil(t, bad, text)
		assert.Equal(t, want, BoxGroups(signs), text)
	}
}

func TestPulses(t *testing.T) {
	tuplet := func(base beat.Span, a, n int) beat.Pulse { return beat.Pulse{Base: base, Actual: a, Normal: n} }
	for text, want := range map[string]beat.Pulse{
		"1/8": beat.Plain(beat.Of(1, 8)), "3/16": beat.Plain(beat.Of(3, 16)), "1/128": beat.Plain(beat.Of(1, 128)), "1": beat.Plain(beat.Of(1, 1)), "2/8": beat.Plain(beat.Of(1, 4)),
		"eighth": beat.Plain(beat.Of(1, 8)), "dotted  eighth": beat.Plain(beat.Of(3, 16)), "quaver": beat.Plain(beat.Of(1, 8)),
		"1/8 in 3:2": tuplet(beat.Of(1, 8), 3, 2), "sixteenth in 5:4": tuplet(beat.Of(1, 16), 5, 4), "triplet eighth": tuplet(beat.Of(1, 8), 3, 2),
		"septuplet sixteenth": tuplet(beat.Of(1, 16), 7, 4), "1/8 in 4:3": tuplet(beat.Of(1, 8), 4, 3),
		// A bare fraction takes the usual ratio: n in the time of the largest
		// power of two below n (common practice in simple time).
		"1/12": tuplet(beat.Of(1, 8), 3, 2), "1/6": tuplet(beat.Of(1, 4), 3, 2), "1/20": tuplet(beat.Of(1, 16), 5, 4),
		"1/28": tuplet(beat.Of(1, 16), 7, 4), "1/36": tuplet(beat.Of(1, 32), 9, 8), "1/10": tuplet(beat.Of(1, 8), 5, 4),
	} {
		got, bad := Pulse(text)
		if assert.Nil(t, bad, text) {
			assert.Equal(t, want, got, text)
			if s, ok := beat.ParseSpan(text); ok {
				assert.Equal(t, s, got.Span(), "%s lasts what it says", text)
			}
		}
	}
}

func TestSignatures(t *testing.T) {
	for text, want := range map[string]score.Signature{
		"5/4":         score.PlainSignature(5, 4),
		"64/128":      score.PlainSignature(64, 128),
		"3+2+2/8":     {Terms: []score.Term{{Groups: []int{3, 2, 2}, Unit: 8}}},
		"2/4 + 3/8":   {Terms: []score.Term{{Groups: []int{2}, Unit: 4}, {Groups: []int{3}, Unit: 8}}},
		"3+2/8+3/4":   {Terms: []score.Term{{Groups: []int{3, 2}, Unit: 8}, {Groups: []int{3}, Unit: 4}}},
		"2+2+3+2+2/1": {Terms: []score.Term{{Groups: []int{2, 2, 3, 2, 2}, Unit: 1}}},
	} {
		got, bad := Signature(text)
		if assert.Nil(t, bad, text) {
			assert.Equal(t, want, got, text)
		}
	}
}

func TestTempi(t *testing.T) {
	for text, quarters := range map[string]beat.Span{
		"132": beat.Of(132, 1), "132.5": beat.Of(265, 2), "60.125": beat.Of(481, 8), "4": beat.Of(4, 1), "2000": beat.Of(2000, 1),
		// 6/8 at dotted quarter = 120 is quarter = 180 (arithmetic).
		"dotted quarter = 120": beat.Of(180, 1), "half=60": beat.Of(120, 1), "eighth = 200": beat.Of(100, 1), "dotted quarter = 88": beat.Of(132, 1),
		"dotted crotchet = 88": beat.Of(132, 1), "1/8 = 300": beat.Of(150, 1),
	} {
		got, bad := Tempo(text)
		if assert.Nil(t, bad, text) {
			assert.Equal(t, quarters, got.Quarters, text)
			assert.Nil(t, got.Old)
			assert.Equal(t, quarters, got.Rate.Mul(got.Beat.Over(beat.Of(1, 4))), text)
		}
	}
}

// Words end at the last comma, else before the number or the note value; a value
// before = is none of them.
func TestTemposInWords(t *testing.T) {
	for text, want := range map[string]string{
		"Lively 132": "Lively|1/4=132", "Slow, dotted quarter = 54": "Slow|3/8=54", "Slow dotted quarter = 54": "Slow|3/8=54", "half = 60": "|1/2=60",
		"Very slow half = 60": "Very slow|1/2=60", "Light, but steady, 96.5": "Light, but steady|1/4=193/2", "Lively,132": "Lively|1/4=132", "132": "|1/4=132",
		"Half  time 60": "Half time|1/4=60", "a tempo": "a tempo|0=0", "rit.": "rit.|0=0", "accel.": "accel.|0=0",
	} {
		got, bad := Tempo(text)
		if assert.Nil(t, bad, text) {
			assert.Equal(t, want, fmt.Sprintf("%s|%v=%v", got.Words, got.Beat, got.Rate), text)
		}
	}
	swung, bad := Tempo("Swing, triplet quarter = quarter")
	require.Nil(t, bad)
	assert.Equal(t, "Swing", swung.Words)
	assert.Equal(t, 3, swung.Old.Actual)
}

// Signatures of the circle of fifths (common practice).
func TestKeys(t *testing.T) {
	for text, want := range map[string]score.Key{
		"none": {None: true}, "2 sharps": {Fifths: 2}, "1 flat": {Fifths: -1}, "0 sharps": {}, "7 flats": {Fifths: -7},
		"C major": {Mode: "major"}, "D dorian": {Mode: "dorian"}, "A minor": {Mode: "minor"}, "F# minor": {Fifths: 3, Mode: "minor"},
		"Bb major": {Fifths: -2, Mode: "major"}, "E phrygian": {Mode: "phrygian"}, "F lydian": {Mode: "lydian"}, "G mixolydian": {Mode: "mixolydian"},
		"B locrian": {Mode: "locrian"}, "C# major": {Fifths: 7, Mode: "major"}, "E♭ minor": {Fifths: -6, Mode: "minor"}, "E Dorian": {Fifths: 2, Mode: "dorian"},
	} {
		got, bad := Key(text)
		if assert.Nil(t, bad, text) {
			assert.Equal(t, want, got, text)
		}
	}
}

func TestPlaces(t *testing.T) {
	for text, want := range map[string]score.Place{
		"bar 5": {Kind: score.AtBar, N: 5}, "bar  5  beat 3": {Kind: score.AtBar, N: 5, Beat: 3}, "pulse 17": {Kind: score.AtPulse, N: 17},
		"realignment 0": {Kind: score.AtRealignment}, "cycle 3": {Kind: score.AtCycle, N: 3},
		"Marimba cycle 3": {Kind: score.AtCycle, N: 3, Layer: "Marimba"}, "cycle 3 of Bass clarinet": {Kind: score.AtCycle, N: 3, Layer: "Bass clarinet"},
		"Gate 2 cycle 4":           {Kind: score.AtCycle, N: 4, Layer: "Gate 2"},
		"Marimba cycle 3 attack 2": {Kind: score.AtAttack, Cycle: 3, N: 2, Layer: "Marimba"}, "Flute attack 12": {Kind: score.AtAttack, N: 12, Layer: "Flute"},
		"Gate  2 attack 4": {Kind: score.AtAttack, N: 4, Layer: "Gate  2"}, "attack 12": {Kind: score.AtAttack, N: 12},
	} {
		got, bad := Place(text, true)
		if assert.Nil(t, bad, text) {
			assert.Equal(t, want, got, text)
		}
	}
}

func TestLengthsAndLoops(t *testing.T) {
	for text, want := range map[string]score.LengthRule{
		"2 realignments": {Kind: score.Realignments, N: 2}, "1 realignment": {Kind: score.Realignments, N: 1}, "16 bars": {Kind: score.Bars, N: 16},
		"90 pulses": {Kind: score.Pulses, N: 90}, "1 return": {Kind: score.Returns, N: 1},
	} {
		got, bad := Length(text)
		if assert.Nil(t, bad, text) {
			assert.Equal(t, want, got, text)
		}
	}
	loop, bars, bad := Loop("cut every 6 bars")
	require.Nil(t, bad)
	assert.Equal(t, score.CutBars, loop)
	assert.Equal(t, 6, bars)
	loop, _, bad = Loop("restart at realignment")
	require.Nil(t, bad)
	assert.Equal(t, score.CutRealignment, loop)
}

func TestPitches(t *testing.T) {
	// MIDI keys: middle C is C4 and 60 (common practice).
	for text, key := range map[string]int{"C4": 60, "A4": 69, "F#4": 66, "Gb4": 66, "C##5": 74, "Bbb3": 57, "C-1": 0, "G9": 127, "B♭3": 58, "F♯4": 66, "F𝄪4": 67} {
		got, bad := parsePitch(text)
		if assert.Nil(t, bad, text) {
			assert.Equal(t, key, got.Key(), text)
		}
	}
}

func TestSeries(t *testing.T) {
	marimba, _ := instrument.Find("marimba")
	kit, _ := instrument.Find("drum set")
	chords, bad := Series("E5  B4 G3+D4\nA3 + E4", marimba)
	require.Empty(t, bad)
	var got []string
	for _, c := range chords {
		got = append(got, c.String())
	}
	assert.Equal(t, []string{"E5", "B4", "G3+D4", "A3+E4"}, got)

	chords, bad = Series("kick closed hi-hat snare+open hi-hat side stick", kit)
	require.Empty(t, bad)
	var sounds []string
	for _, c := range chords {
		var names []string
		for _, tone := range c {
			names = append(names, kit.Drums[tone.Drum-1].Name)
		}
		sounds = append(sounds, strings.Join(names, "+"))
	}
	assert.Equal(t, []string{"kick", "closed hi-hat", "snare+open hi-hat", "side stick"}, sounds)
}

func TestLineNotes(t *testing.T) {
	marimba, _ := instrument.Find("marimba")
	eighth := beat.Plain(beat.Of(1, 8))
	for text, want := range map[string]string{
		"D5 3": "D5 3/8", "rest 2": " 1/4", "rest 1/4": " 1/4", "E5+G5 dotted quarter": "E5+G5 3/8", " E5 + G5 1": "E5+G5 1/8",
		"A4 triplet eighth": "A4 1/12", "A4 half": "A4 1/2", "A4 5/8": "A4 5/8",
	} {
		got, bad := Note(text, marimba, eighth)
		if assert.Nil(t, bad, text) {
			assert.Equal(t, want, got.Tones.String()+" "+got.Length.String(), text)
		}
	}
	bare, bad := Note("x 2", instrument.Rhythm, eighth)
	require.Nil(t, bad)
	assert.Equal(t, score.Chord{{}}, bare.Tones)
}
