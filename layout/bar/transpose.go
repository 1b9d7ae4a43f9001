package bar

import (
	"cmp"

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

// NewTransposer returns the transposer of an instrument; at sounding pitch, if concert
// is set, only octaves are transposed.
func NewTransposer(i *instrument.Instrument, concert bool) Transposer {
	t := Transposer{letters: -7 * i.Octave, semitones: -12 * i.Octave}
	if !concert {
		t.letters -= i.Diatonic
		t.semitones -= i.Chromatic
	}
	return t
}

// KeyOf sets Key to the transposed key signature and returns it. One of more than seven
// signs becomes its enharmonic equivalent, and from then on pitches follow that.
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

// Written transposes one tone. respelt is set when the interval's own result is
// awkward: w then has the nearest letter that is not, and instead is that result.
func (t Transposer) Written(tone score.Tone) (w, instead score.Tone, respelt bool) {
	if !tone.IsPitched() {
		return tone, tone, false
	}
	place := sheet.Steps(tone.Step, int(tone.Octave)) + t.letters
	key := tone.Key() + t.semitones
	w = spellKey(place, key)
	instead = w
	if t.semitones%12 == 0 { // octaves change no spelling
		return w, instead, false
	}
	for t.awkward(w) {
		place += cmp.Compare(w.Alter, 0)
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
	natural := score.Tone{Step: step, Octave: int8(octave)}
	natural.Alter = int8(key - natural.Key())
	return natural
}
