package bar

import (
	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/instrument"
)

// Transposer turns sounding pitches into written ones by interval: so many
// letters and so many semitones.
type Transposer struct {
	letters, semitones int // added to what sounds
	Key                score.Key
}

var naturalKeys = [7]int{0, 2, 4, 5, 7, 9, 11}

// NewTransposer is for an instrument, at sounding pitch if concert is set.
// Octave transpositions stay in either.
func NewTransposer(i *instrument.Instrument, concert bool) Transposer {
	t := Transposer{letters: -7 * i.Octave, semitones: -12 * i.Octave}
	if !concert {
		t.letters -= i.Diatonic
		t.semitones -= i.Chromatic
	}
	return t
}

// KeyOf transposes a key signature. One past seven signs becomes its
// enharmonic, and from then on pitches follow it.
func (t *Transposer) KeyOf(k score.Key) score.Key {
	t.Key = k
	if k.None {
		return k
	}
	k.Fifths += 7*t.semitones - 12*t.letters
	switch {
	case k.Fifths > 7:
		k.Fifths -= 12
		t.letters++
	case k.Fifths < -7:
		k.Fifths += 12
		t.letters--
	}
	t.Key = k
	return k
}

// Written transposes one tone. respelt is set when the interval's own result
// was avoided, for the nearest letter that is not awkward; instead then holds it.
func (t Transposer) Written(tone score.Tone) (w, instead score.Tone, respelt bool) {
	if !tone.IsPitched() {
		return tone, tone, false
	}
	place := sheet.Steps(tone.Step, int(tone.Octave)) + t.letters
	key := tone.Key() + t.semitones
	instead = spellKey(place, key)
	w = instead
	if t.semitones%12 == 0 { // octaves change no spelling
		return w, instead, false
	}
	for t.awkward(w) {
		place += max(-1, min(int(w.Alter), 1))
		w = spellKey(place, key)
	}
	return w, instead, w != instead
}

// awkward reports whether a spelling is to be avoided: a double sign, or E
// sharp, B sharp, C flat, F flat where the key does not have them.
func (t Transposer) awkward(w score.Tone) bool {
	if w.Alter > 1 || w.Alter < -1 {
		return true
	}
	if sheet.KeyAlter(t.Key, w.Step) == w.Alter {
		return false
	}
	switch w.Step {
	case 'E', 'B':
		return w.Alter == 1
	case 'C', 'F':
		return w.Alter == -1
	}
	return false
}

// spellKey writes a MIDI key on the place so many steps from C0. The
// alteration may come out beyond a double sign; awkward then refuses it.
func spellKey(place, key int) score.Tone {
	step, octave := sheet.StepAt(place)
	natural := 12*(octave+1) + naturalKeys[place-7*octave]
	return score.Tone{Step: step, Octave: int8(octave), Alter: int8(key - natural)}
}
