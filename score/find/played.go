package find

import (
	"slices"

	"tieover/score/heard"
)

// together is how far apart in seconds the notes of a played chord may be.
const together = 0.03

// FromPlayed is FromOnsets for notes that were played: those struck nearly
// together are one chord. Where the tempo changes the seconds are those of the
// first: a file's moments are places in its bars, whatever its tempo there.
func FromPlayed(part *heard.Part, o TapOptions) (*List, *Taps, error) {
	var onsets []float64
	var chords [][]heard.Tone
	quarters := 120.0 // what a MIDI file without a tempo means
	if part.Quarters().Sign() > 0 {
		quarters = ratio(part.Quarters())
	}
	for _, a := range part.Attacks {
		at := ratio(a.Onset) * 240 / quarters
		if n := len(onsets); n > 0 && at-onsets[n-1] < together {
			chords[n-1] = append(chords[n-1], a.Tones...)
			continue
		}
		onsets = append(onsets, at)
		chords = append(chords, slices.Clone(a.Tones))
	}
	l, taps, err := FromOnsets(onsets, o)
	if err != nil {
		return nil, nil, err
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
	return l, taps, nil
}
