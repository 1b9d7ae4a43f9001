package verify

import (
	"cmp"
	"slices"
	"strconv"

	"tieover/score"
	"tieover/score/beat"
	"tieover/score/heard"
	"tieover/score/instrument"
)

// note is one tone of one attack, from either side.
type note struct {
	onset, length beat.Span
	sound         string // what it sounds, alike for both sides: "60", "drum 38", "x"
	name          string // how it is called
	layer         int    // of the comparison's layers; -1 on the score's side
	voice         string
	loose         bool // its length does not matter: tails are cut at barlines
}

// expected lists the notes that the spec wants of the layers, in order. A
// section that ends with a repeat is played twice.
func (c *comparison) expected(layers []layer) []note {
	var notes []note
	start := beat.Time(0)
	for i, s := range c.piece.Sections {
		times := 1
		if s.End == score.Repeat {
			times = 2
		}
		for range times {
			for k, l := range layers {
				if l.at[i] >= 0 {
					notes = append(notes, c.layerNotes(s, l.at[i], k, start)...)
				}
			}
			start += s.Extent()
		}
	}
	slices.SortStableFunc(notes, byOnset)
	return notes
}

func byOnset(a, b note) int { return cmp.Or(a.onset.Cmp(b.onset), cmp.Compare(a.sound, b.sound)) }

func (c *comparison) layerNotes(s *score.Section, layer, k int, start beat.Time) []note {
	l := s.Layers[layer]
	var notes []note
	for at, a := range s.Attacks(layer) {
		for _, tone := range a.Tones {
			n := note{onset: s.Grid.Span(start + at), length: s.Grid.Span(a.Length), layer: k, loose: l.Tails == score.CutTails}
			n.sound, n.name = wanted(tone, l.Instrument)
			if c.options.RhythmOnly {
				n.sound, n.name = "x", "a note"
			}
			notes = append(notes, n)
		}
	}
	if c.options.RhythmOnly {
		notes = slices.CompactFunc(notes, func(a, b note) bool { return a.onset == b.onset })
	}
	return notes
}

// wanted says what a tone of the spec sounds, and its name.
func wanted(t score.Tone, on *instrument.Instrument) (sound, name string) {
	switch {
	case t.IsPitched():
		return strconv.Itoa(t.Key()), t.String()
	case t.Drum > 0:
		d := on.Drums[t.Drum-1]
		return "drum " + strconv.Itoa(d.Key), d.Name
	case len(on.Drums) > 0:
		return "drum " + strconv.Itoa(on.Drums[0].Key), on.Drums[0].Name
	}
	return "x", "a note"
}

// played lists the notes of the part, in order.
func (c *comparison) played(layers []layer) []note {
	drums := c.drums(layers)
	var notes []note
	for _, a := range c.part.Attacks {
		for _, tone := range a.Tones {
			n := note{onset: a.Onset, length: a.Length, layer: -1, voice: a.Voice}
			n.sound, n.name = sounds(tone, drums)
			if c.options.RhythmOnly {
				n.sound, n.name = "x", "a note"
			}
			notes = append(notes, n)
		}
	}
	slices.SortStableFunc(notes, byOnset)
	if c.options.RhythmOnly && (len(layers) == 1 || c.composite) {
		notes = slices.CompactFunc(notes, func(a, b note) bool { return a.onset == b.onset })
	}
	return notes
}

// drums lists the sounds that the part's instruments have.
func (c *comparison) drums(layers []layer) []instrument.Drum {
	var all []instrument.Drum
	for _, l := range layers {
		for i, s := range c.piece.Sections {
			if l.at[i] >= 0 {
				all = append(all, s.Layers[l.at[i]].Instrument.Drums...)
			}
		}
	}
	return all
}

// sounds says what a tone of the score sounds: a pitch by its key, so that
// another spelling is no difference; a drum by its key, else its name, else
// where it stands on the staff, else, when there is only one sound, as that.
func sounds(t heard.Tone, drums []instrument.Drum) (sound, name string) {
	if t.Step != 0 || len(drums) == 0 {
		if key, ok := t.Key(); ok {
			return strconv.Itoa(key), t.String()
		}
		return t.String(), t.String()
	}
	for _, is := range []func(instrument.Drum) bool{
		func(d instrument.Drum) bool { return int(t.MIDI)-1 == d.Key },
		func(d instrument.Drum) bool {
			return t.MIDI == 0 && t.Name != "" && (t.Name == d.Label || t.Name == d.Name)
		},
		func(d instrument.Drum) bool {
			return t.MIDI == 0 && t.Shown == string(d.Step)+strconv.Itoa(d.Octave)
		},
		func(instrument.Drum) bool { return t.MIDI == 0 && t.Name == "" && len(drums) == 1 },
	} {
		if i := slices.IndexFunc(drums, is); i >= 0 {
			return "drum " + strconv.Itoa(drums[i].Key), drums[i].Name
		}
	}
	return t.String(), t.String()
}
