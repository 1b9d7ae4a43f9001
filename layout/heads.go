package layout

import (
	"slices"

	"tieover/score"
)

// voicePlan is where one layer of the part is written.
type voicePlan struct {
	layer  string
	staff  int
	number int
	stem   Stem
	small  bool
	bare   bool // rhythm only, whatever sounds
}

// heads gives the notes their heads, and the signs that stand only where a
// sound begins.
func (mk *maker) heads(v *voiceInput, events []written) {
	for i := range events {
		n := events[i].note
		if n == nil {
			continue
		}
		s := &v.slices[events[i].slice]
		n.Heads = mk.written(s.tones, v.voice.bare)
		if n.Start == s.at && !s.tieIn {
			n.Group = s.group
			if !v.voice.bare {
				n.Accent, n.Touch, n.Syllable = s.accent, s.touch, s.syllable
			}
		}
	}
}

// written turns the tones of an attack into heads, lowest first as given.
// Repeats of one head (two layers of a composite on one pitch) become one.
func (mk *maker) written(tones score.Chord, bare bool) []Head {
	var heads []Head
	for _, t := range tones {
		if bare || !mk.pitched && t.Drum == 0 || mk.pitched && t.Drum > 0 {
			continue
		}
		w, instead, respelt := mk.wanted.written(t)
		if respelt {
			mk.respell(Respelling{Part: mk.player, Sounding: t, Instead: instead, Written: w})
		}
		h := Head{Step: w.Step, Alter: w.Alter, Octave: w.Octave, Drum: int(t.Drum)}
		if !slices.Contains(heads, h) {
			heads = append(heads, h)
		}
	}
	if heads == nil {
		return []Head{{}}
	}
	return heads
}

func (mk *maker) respell(r Respelling) {
	if !slices.Contains(mk.respelt, r) {
		mk.respelt = append(mk.respelt, r)
	}
}
