package found

import (
	"iter"

	"tieover/score/find"
	"tieover/score/heard"
	"tieover/score/instrument"
)

// reachesAll reports whether the instrument reaches every pitch of the lists.
func reachesAll(lists []*find.List, on *instrument.Instrument) bool {
	for t := range tones(lists) {
		if key, _ := t.Key(); key < on.Low || key > on.High {
			return false
		}
	}
	return true
}

// tones walks every tone of the lists.
func tones(lists []*find.List) iter.Seq[heard.Tone] {
	return func(yield func(heard.Tone) bool) {
		for _, l := range lists {
			for _, chord := range l.Chords {
				for _, t := range chord {
					if !yield(t) {
						return
					}
				}
			}
		}
	}
}

// sortSounds reports whether the lists have pitches that a spec can write, and returns all
// other sounds: drums, and pitches between or beyond the keys.
func sortSounds(lists []*find.List) (pitched bool, drums []heard.Tone) {
	for t := range tones(lists) {
		key, ok := t.Key()
		switch {
		case t.Step != 0 && ok && key >= 0 && key <= 127: // what a spec can say
			pitched = true
		case t.Step != 0 || t.Name != "" || t.MIDI > 0:
			drums = append(drums, t)
		}
	}
	return pitched, drums
}

// findKit returns an instrument that has all the sounds: the named one, else the one with
// the fewest others; nil if there is none.
func findKit(named *instrument.Instrument, drums []heard.Tone) *instrument.Instrument {
	has := func(i *instrument.Instrument) bool {
		for _, t := range drums {
			if drumIndex(i, t) < 0 {
				return false
			}
		}
		return true
	}
	if named != nil && named.IsUnpitched() && has(named) {
		return named
	}
	var best *instrument.Instrument
	for _, i := range instrument.All() {
		if i.IsUnpitched() && has(i) && (best == nil || len(i.Drums) < len(best.Drums)) {
			best = i
		}
	}
	return best
}

// drumIndex returns the index of a tone among the instrument's sounds, -1 if it has none.
func drumIndex(i *instrument.Instrument, t heard.Tone) int {
	for k, d := range i.Drums {
		if t.MIDI > 0 && int(t.MIDI)-1 == d.Key {
			return k
		}
	}
	for k, d := range i.Drums {
		if t.Name == d.Label || t.Name == d.Name {
			return k
		}
	}
	return -1
}
