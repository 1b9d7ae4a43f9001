package score

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// Tone is what one notehead sounds: a pitch, or a sound of a percussion
// instrument. Pitches are sounding pitches, whatever the instrument transposes.
// Tones are comparable; the zero value is a bare rhythm without pitch.
type Tone struct {
	Step   byte  // 'A' to 'G'; 0 when unpitched
	Alter  int8  // semitones, -2 to 2
	Octave int8  // 4 holds middle C
	Drum   uint8 // index into Instrument.Drums, from 1; 0 when pitched or bare
	Grace  uint8 // in a series or line: 0 of the attack itself, 1 of the grace note before it, 2 of that before …
}

// Chord is the tones of one attack, lowest first as the spec wrote them. In a
// series or line its grace notes stand first; Led parts the two.
type Chord []Tone

// MaxGraces is the most grace notes before one attack.
const MaxGraces = 8

// Led returns the grace notes that lead in to a chord, in order, and what is
// struck then.
func (c Chord) Led() (graces []Chord, struck Chord) {
	if len(c) == 0 || c[0].Grace == 0 {
		return nil, c
	}
	graces = make([]Chord, c[0].Grace)
	for _, t := range c {
		rank := int(t.Grace)
		t.Grace = 0
		if rank == 0 {
			struck = append(struck, t)
		} else {
			graces[len(graces)-rank] = append(graces[len(graces)-rank], t)
		}
	}
	return graces, struck
}

// MostGraces is the most grace notes that the layer's series or line writes before
// one attack.
func (l *Layer) MostGraces() (most int) {
	count := func(chords ...Chord) {
		for _, c := range chords {
			graces, _ := c.Led()
			most = max(most, len(graces))
		}
	}
	for _, s := range l.Series {
		count(s...)
	}
	for _, e := range l.Except {
		count(e.Series...)
	}
	for _, n := range l.Line {
		count(n.Tones)
	}
	return most
}

// IsPitched reports whether the tone has a pitch.
func (t Tone) IsPitched() bool { return t.Step != 0 }

var semitones = map[byte]int{'C': 0, 'D': 2, 'E': 4, 'F': 5, 'G': 7, 'A': 9, 'B': 11}

// Key returns the tone's MIDI key, 60 for middle C. Only for a pitched tone.
func (t Tone) Key() int { return 12*(int(t.Octave)+1) + semitones[t.Step] + int(t.Alter) }

// Compare orders pitches from the lowest to the highest, of one MIDI key by octave and
// then step; and drum sounds as the instrument lists them.
func (t Tone) Compare(u Tone) int {
	if t.IsPitched() && u.IsPitched() {
		return cmp.Or(t.Key()-u.Key(), int(t.Octave)-int(u.Octave), int(t.Step)-int(u.Step))
	}
	return int(t.Drum) - int(u.Drum)
}

// String writes the pitch as a spec does: "F#4", "Bb3", "C##5".
func (t Tone) String() string {
	if !t.IsPitched() {
		return "x"
	}
	sign := strings.Repeat("#", max(0, int(t.Alter))) + strings.Repeat("b", max(0, -int(t.Alter)))
	return fmt.Sprintf("%c%s%d", t.Step, sign, t.Octave)
}

// String joins the tones with "+", and grace notes with "/", as a spec writes them.
func (c Chord) String() string {
	var b strings.Builder
	for i, t := range c {
		switch {
		case i == 0:
		case c[i-1].Grace > t.Grace:
			b.WriteByte('/')
		default:
			b.WriteByte('+')
		}
		b.WriteString(t.String())
	}
	return b.String()
}

// HandSpan is how many half steps one hand reaches: a tenth (common practice).
const HandSpan = 16

// Span is how many half steps lie between a chord's lowest and highest pitch, its grace
// notes left out.
func (c Chord) Span() int {
	_, struck := c.Led()
	if keys := struck.keys(); len(keys) > 0 {
		return slices.Max(keys) - slices.Min(keys)
	}
	return 0
}

// Hands divides a chord that is too wide for one hand between two: at the widest gap
// that leaves each what it reaches, of several the highest. ok is false where one hand
// is enough, and where two are not.
func (c Chord) Hands() (lower, upper Chord, ok bool) {
	_, struck := c.Led()
	if struck.Span() <= HandSpan {
		return nil, nil, false
	}
	sorted := slices.SortedStableFunc(slices.Values(struck), func(a, b Tone) int { return cmp.Compare(a.Key(), b.Key()) })
	widest := 0
	for i := 1; i < len(sorted); i++ {
		low, high := Chord(sorted[:i]), Chord(sorted[i:])
		gap := sorted[i].Key() - sorted[i-1].Key()
		if gap >= widest && low.Span() <= HandSpan && high.Span() <= HandSpan {
			lower, upper, widest, ok = low, high, gap, true
		}
	}
	return lower, upper, ok
}
