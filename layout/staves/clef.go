package staves

import (
	"slices"

	"tieover/layout/bar"
	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/instrument"
)

// MIDI keys of middle C, and of the range that an instrument must have to be read in
// both clefs: E3 to C5.
const (
	middleC  = 60
	bothLow  = 52
	bothHigh = 72
)

// The edges of a staff in steps from its middle line: two ledger lines off.
const twoLedgers = 8

var (
	treble = instrument.Clef{Sign: 'G', Line: 2}
	bass   = instrument.Clef{Sign: 'F', Line: 4}
)

// clefOf chooses one clef for a staff, from 1, by the median of what its layers write:
// the instrument's own (on a lower staff the bass clef), or the bass or treble clef where
// that median would be more than two ledger lines off and the instrument reads both: a
// keyboard or mallet instrument whose range covers E3 to C5.
func clefOf(staff int, layers []*score.Layer, ins *instrument.Instrument, t bar.Transposer) instrument.Clef {
	own := ins.Clef
	if staff == 2 {
		own = bass
	}
	both := ins.Family == instrument.Keyboard || ins.Family == instrument.Percussion || ins.Staves == 2
	if ins.IsUnpitched() || !both || ins.Low > bothLow || ins.High < bothHigh {
		return own
	}
	median, ok := MedianPlace(t, layers...)
	best := own
	for _, c := range []instrument.Clef{treble, bass} {
		if ok && Distance(own, median) > twoLedgers && Distance(c, median) < Distance(best, median) {
			best = c
		}
	}
	return best
}

// Distance is how many steps a place (see sheet.Steps) is from the middle line of a
// five-line staff: four is its edge, eight the second ledger line.
func Distance(c instrument.Clef, place int) int {
	middle := sheet.Steps(sheet.Staff{Clef: c, Lines: 5}.Middle())
	return max(place-middle, middle-place)
}

// MedianPlace is the median of the places (see sheet.Steps) on which the layers' pitches
// are written; ok is false where they have none.
func MedianPlace(t bar.Transposer, layers ...*score.Layer) (place int, ok bool) {
	var places []int
	for _, l := range layers {
		for _, tone := range tonesOf(l) {
			if tone.IsPitched() {
				w, _, _ := t.Written(tone)
				places = append(places, sheet.Steps(w.Step, int(w.Octave)))
			}
		}
	}
	return median(places)
}

// medianKey is the median of the layer's pitches as MIDI keys, middle C if it has none.
func medianKey(l *score.Layer) int {
	var keys []int
	for _, tone := range tonesOf(l) {
		if tone.IsPitched() {
			keys = append(keys, tone.Key())
		}
	}
	if key, ok := median(keys); ok {
		return key
	}
	return middleC
}

// median is the upper one of the two in the middle of an even number.
func median(all []int) (middle int, ok bool) {
	if len(all) == 0 {
		return 0, false
	}
	slices.Sort(all)
	return all[len(all)/2], true
}

// tonesOf lists the tones of a layer, as often as they are written.
func tonesOf(l *score.Layer) (tones []score.Tone) {
	for _, c := range l.Chords() {
		tones = append(tones, c...)
	}
	return tones
}
