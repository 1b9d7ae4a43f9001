package find

import (
	"slices"

	"tieover/score/beat"
	"tieover/score/heard"
)

// together is how far apart in seconds the notes of a played chord may be.
const together = 0.03

// FromPlayed is FromOnsets for notes that were played: those struck nearly
// together are one chord.
func FromPlayed(part *heard.Part, o TapOptions) (*List, *Taps, error) {
	var onsets []float64
	var chords [][]heard.Tone
	clock := clock{quarters: 120} // what a MIDI file without a tempo means
	tempos := part.Tempos
	for _, a := range part.Attacks {
		for len(tempos) > 0 && tempos[0].At.Cmp(a.Onset) <= 0 {
			clock.to(tempos[0].At)
			clock.quarters, tempos = ratio(tempos[0].Quarters), tempos[1:]
		}
		at := clock.to(a.Onset)
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

// clock turns moments of a file, in order, into seconds.
type clock struct {
	at       beat.Span
	seconds  float64
	quarters float64 // a minute
}

// to goes on to a moment and returns its second.
func (c *clock) to(at beat.Span) float64 {
	c.seconds += ratio(at.Sub(c.at)) * 240 / c.quarters
	c.at = at
	return c.seconds
}
