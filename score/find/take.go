package find

import (
	"fmt"
	"slices"

	"tieover/score/find/align"
	"tieover/score/heard"
)

// TapPart is one part of a take, before it is read.
type TapPart struct {
	Name   string
	Onsets []float64 // seconds, ascending; of all parts from the same moment
	// Chords are what each onset sounds; nil for a mere rhythm.
	Chords [][]heard.Tone
	Played *heard.Part // what it was made from; nil when it was tapped
}

// Take is parts that were tapped or played to one clock, as they were read.
type Take struct {
	Taps  Taps // of all parts together; its deviations are each part's own
	Parts []TakePart
}

// TakePart is one part of a take.
type TakePart struct {
	Name   string
	List   *List // from the first attack of all parts on
	Taps   Taps
	Ranked []*Description // as Search returns them
}

// FromParts reads parts that were tapped or played to one clock: with one pulse and one
// tempo. The error says which onsets cannot be read, or that no pulse counts them.
func FromParts(parts []TapPart, o TapOptions) (*Take, error) {
	if len(parts) == 1 {
		return fromPart(parts[0], o)
	}
	taps := make([][]float64, len(parts))
	for i, p := range parts {
		var err error
		if taps[i], err = milliseconds(p.Onsets); err != nil {
			return nil, fmt.Errorf("%s: %w", p.Name, err)
		}
	}
	together, ok := align.Parts(taps, o.align())
	if !ok {
		return nil, o.noPulse(taps...)
	}
	clock := Taps{Scatter: together.Scatter / 1000, Swing: together.Pulse.Swing}
	o.setTakeTempo(&clock, together, taps)
	t := &Take{Taps: clock}
	for i, p := range parts {
		read := together.Parts[i]
		best, l := o.choose(&read.Result, read.First)
		if err := l.check(); err != nil {
			return nil, fmt.Errorf("%s: %w", p.Name, err)
		}
		l.sound(p.Chords)
		own := clock
		own.OpenEnd = best.LastGroup() == 0
		own.addLate(read.Late, together.Pulse.Milliseconds/1000, o.Tolerance)
		t.Parts = append(t.Parts, TakePart{Name: p.Name, List: l, Taps: own, Ranked: Search(l, Options{Exceptions: o.Exceptions})})
	}
	return t, nil
}

// fromPart reads a single part.
func fromPart(p TapPart, o TapOptions) (*Take, error) {
	l, taps, err := FromOnsets(p.Onsets, o)
	if err != nil {
		return nil, err
	}
	l.sound(p.Chords)
	part := TakePart{Name: p.Name, List: l, Taps: *taps, Ranked: Search(l, Options{Exceptions: o.Exceptions})}
	return &Take{Taps: *taps, Parts: []TakePart{part}}, nil
}

// setTakeTempo sets how long a pulse of all parts lasts: the time of the part with the most
// pulses, divided by these.
func (o TapOptions) setTakeTempo(t *Taps, together *align.Together, taps [][]float64) {
	most := int64(0)
	for i, part := range together.Parts {
		places := part.Best().Places
		if pulses := places[len(places)-1]; pulses > most {
			most = pulses
			t.Pulse = (taps[i][len(taps[i])-1] - taps[i][0]) / 1000 / float64(pulses)
		}
	}
	t.setTempo(o, together.Pulse)
}

// together is how far apart in seconds the notes of a played chord may be.
const together = 0.03

// PlayedPart makes a part of a take of notes that were played: those struck nearly
// together are one chord. Where the tempo changes the seconds are those of the first: a
// file's moments are places in its bars, whatever its tempo there.
func PlayedPart(part *heard.Part) TapPart {
	p := TapPart{Name: part.Name, Played: part}
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

// sound sets the tones of each attack; nil leaves a mere rhythm.
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
		l.Hits[i].Chord = l.chord(tones, known)
	}
}
