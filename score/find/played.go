package find

import (
	"slices"

	"tieover/score/heard"
)

// together is how far apart in seconds the notes of a played chord may be.
const together = 0.03

// FromPlayed is FromOnsets for notes that were played.
func FromPlayed(part *heard.Part, o TapOptions) (*List, *Taps, error) {
	p := PlayedPart(part)
	l, taps, err := FromOnsets(p.Onsets, o)
	if err != nil {
		return nil, nil, err
	}
	l.sound(p.Chords)
	return l, taps, nil
}

// PlayedPart makes a part of a take of notes that were played: those struck nearly
// together are one chord. Where the tempo changes the seconds are those of the first: a
// file's moments are places in its bars, whatever its tempo there.
func PlayedPart(part *heard.Part) TapPart {
	p := TapPart{Name: part.Name}
	quarters := 120.0 // what a MIDI file without a tempo means
	if part.Quarters().Sign() > 0 {
		quarters = ratio(part.Quarters())
	}
	for _, a := range part.Attacks {
		at := ratio(a.Onset) * 240 / quarters
		if n := len(p.Onsets); n > 0 && at-p.Onsets[n-1] < together {
			p.Chords[n-1] = append(p.Chords[n-1], a.Tones...)
			continue
		}
		p.Onsets = append(p.Onsets, at)
		p.Chords = append(p.Chords, slices.Clone(a.Tones))
	}
	return p
}

// sound says what each attack sounds; nil leaves a mere rhythm.
func (l *List) sound(chords [][]heard.Tone) {
	if chords == nil {
		return
	}
	l.Chords = nil
	known := map[string]int{}
	for i, tones := range chords {
		slices.SortStableFunc(tones, func(a, b heard.Tone) int {
			low, _ := a.Key()
			high, _ := b.Key()
			return low - high
		})
		name := chordText(tones)
		chord, seen := known[name]
		if !seen {
			chord = len(l.Chords)
			known[name] = chord
			l.Chords = append(l.Chords, tones)
		}
		l.Hits[i].Chord = chord
	}
}
