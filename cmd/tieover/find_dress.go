package main

import (
	"iter"
	"strings"

	"tieover/score/find"
	"tieover/score/heard"
	"tieover/score/instrument"
)

// playersLists returns the lists of all layers that share layer i's player, who
// has one instrument for them.
func playersLists(layers []find.Found, i int) []*find.List {
	var all []*find.List
	for k, f := range layers {
		if k == i || f.Player != "" && f.Player == layers[i].Player {
			all = append(all, f.List)
		}
	}
	return all
}

// dress chooses an instrument for a line: the one its name says, if that can
// sound it; else a common one that can; else none, for a mere rhythm.
func dress(f *find.Found, all []*find.List) {
	pitched, drums := soundsOf(all)
	name := f.Name
	if f.Player != "" {
		name = f.Player
	}
	named, _ := instrument.Find(strings.TrimRight(name, " 0123456789"))
	switch {
	case len(drums) > 0 && !pitched:
		if on := kitFor(named, drums); on != nil {
			f.Instrument, f.Bare = on.Name, len(on.Drums) == 1
			f.Sound = func(t heard.Tone) string { return on.Drums[drumOf(on, t)].Name }
		}
	case pitched && len(drums) == 0:
		f.Instrument = "piano"
		if named != nil && !named.IsUnpitched() && inRange(all, named) {
			f.Instrument = named.Name
		}
	}
}

// inRange reports whether the instrument reaches every pitch of the lists.
func inRange(lists []*find.List, on *instrument.Instrument) bool {
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

// soundsOf reports whether the lists have pitches, and their drum sounds.
func soundsOf(lists []*find.List) (pitched bool, drums []heard.Tone) {
	for t := range tones(lists) {
		switch {
		case t.Step != 0:
			pitched = true
		case t.Name != "" || t.MIDI > 0:
			drums = append(drums, t)
		}
	}
	return pitched, drums
}

// kitFor returns the instrument that has all the sounds: the named one, else
// the one with the fewest sounds besides.
func kitFor(named *instrument.Instrument, drums []heard.Tone) *instrument.Instrument {
	has := func(i *instrument.Instrument) bool {
		for _, t := range drums {
			if drumOf(i, t) < 0 {
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

// drumOf returns which sound of the instrument a tone is, -1 if none.
func drumOf(i *instrument.Instrument, t heard.Tone) int {
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
