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

// note is one tone of one attack, from either side. Times are ticks of the
// comparison's grid, on the score's own clock.
type note struct {
	onset, length beat.Time
	moved         beat.Time // how much later it is looked for than the spec says
	term
	layer int // of the comparison's layers; -1 on the score's side
	voice string
	loose bool // how long it lasts does not matter
}

func (n note) end() beat.Time { return n.onset + n.length }

func byOnset(a, b note) int {
	return cmp.Or(cmp.Compare(a.onset, b.onset), cmp.Compare(a.sound, b.sound))
}

func sameOnset(a, b note) bool { return a.onset == b.onset }

// isTwice reports whether two notes are one sound at one moment.
func isTwice(a, b note) bool { return byOnset(a, b) == 0 }

// word is a text that is compared often: an index into a vocabulary.
type word int32

// vocabulary holds each text once.
type vocabulary struct {
	index map[string]word
	texts []string
}

func (v *vocabulary) word(text string) word {
	w, known := v.index[text]
	if !known {
		w = word(len(v.texts))
		v.index[text] = w
		v.texts = append(v.texts, text)
	}
	return w
}

func (v *vocabulary) String(w word) string { return v.texts[w] }

// term is a sound, alike for both sides, and its name.
type term struct{ sound, name word }

func (v *vocabulary) term(sound, name string) term { return term{v.word(sound), v.word(name)} }

// bare is a note of which only the rhythm counts.
func (v *vocabulary) bare() term { return v.term("x", "a note") }

// expectedNotes lists the notes that the spec wants of the layers, in order. A
// section that ends with a repeat is played twice.
func (c *comparison) expectedNotes(layers []layer) []note {
	var notes []note
	c.written = nil
	for _, p := range c.piece.Passes() {
		for k, l := range layers {
			if at := l.at[p.Section]; at >= 0 {
				notes = c.layerNotes(notes, p, at, k)
			}
		}
	}
	slices.SortStableFunc(notes, byOnset)
	return notes
}

// layerNotes adds what a layer of a section sounds.
func (c *comparison) layerNotes(notes []note, p score.Pass, layer, k int) []note {
	s := c.piece.Sections[p.Section]
	l := s.Layers[layer]
	finer := beat.Time(c.grid / s.Grid)
	first := len(notes)
	known := map[score.Tone]term{}
	stretches := c.write(p, l)
	for at, a := range s.Attacks(layer) {
		if at < p.From {
			continue
		}
		onset, length, tones := (p.At+at)*finer, a.Length*finer, a.Tones
		as, cut := asWritten(stretches, l, onset, onset+length)
		switch as {
		case score.AsSlashes:
			continue
		case score.AsRhythm:
			tones = a.Tones[:1]
		}
		for _, tone := range tones {
			of, ok := known[tone]
			switch {
			case c.rhythmOnly || as == score.AsRhythm:
				of = c.words.bare()
			case !ok:
				of = c.words.term(wanted(tone, l.Instrument))
				known[tone] = of
			}
			notes = append(notes, note{onset: onset, length: length, term: of, layer: k,
				loose: l.Tails == score.CutTails || cut || as == score.AsRhythm})
		}
	}
	if c.rhythmOnly {
		return append(notes[:first], slices.CompactFunc(notes[first:], sameOnset)...)
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

// playedNotes lists the notes of the part, in order.
func (c *comparison) playedNotes(layers []layer) []note {
	drums := c.drums(layers)
	notes := make([]note, 0, len(c.part.Attacks))
	known := map[heard.Tone]term{}
	for _, a := range c.part.Attacks {
		onset, length := c.grid.Must(a.Onset), c.grid.Must(a.Length)
		if c.slashed(onset, a.Slash) {
			continue
		}
		for _, tone := range a.Tones {
			of, ok := known[tone]
			switch {
			case c.rhythmOnly || a.Slash:
				of = c.words.bare()
			case !ok:
				of = c.words.term(sounds(tone, drums))
				known[tone] = of
			}
			notes = append(notes, note{onset: onset, length: length, term: of, layer: -1, voice: a.Voice})
		}
	}
	slices.SortStableFunc(notes, byOnset)
	if c.rhythmOnly && (len(layers) == 1 || c.composite) {
		notes = slices.CompactFunc(notes, sameOnset)
	}
	return notes
}

// drums lists the sounds that the part's instruments have.
func (c *comparison) drums(layers []layer) []instrument.Drum {
	var all []instrument.Drum
	for _, l := range layers {
		for own := range l.in(c.piece) {
			all = append(all, own.Instrument.Drums...)
		}
	}
	return all
}

// sounds says what a tone of the score sounds: a pitch by its key, so that
// another spelling is no difference; a drum by its key, else its name, else
// by its place on the staff, else, when there is only one sound, as that.
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

// commonGrid is the coarsest grid on which all moments of both sides are whole:
// the reader of scores and the spec bound both, so that a moment stays far below
// 2^63 ticks.
func commonGrid(p *score.Piece, s *heard.Score) beat.Grid {
	grid := int64(p.Grid)
	hold := func(at beat.Span) {
		if den := at.Den(); grid%den != 0 {
			grid, _ = beat.LCM(grid, den)
		}
	}
	for _, part := range s.Parts {
		for _, a := range part.Attacks {
			hold(a.Onset)
			hold(a.Length)
		}
		for _, bar := range part.Bars {
			hold(bar.Start)
			hold(bar.Length)
		}
	}
	for _, m := range s.Marks {
		hold(m.At)
	}
	for _, r := range s.Remarks {
		hold(r.At)
	}
	return beat.Grid(grid)
}
