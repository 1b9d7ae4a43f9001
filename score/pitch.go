package score

import (
	"fmt"
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
}

// Chord is the tones of one attack, lowest first as the spec wrote them.
type Chord []Tone

// IsPitched reports whether the tone has a pitch.
func (t Tone) IsPitched() bool { return t.Step != 0 }

var semitones = map[byte]int{'C': 0, 'D': 2, 'E': 4, 'F': 5, 'G': 7, 'A': 9, 'B': 11}

// Key returns the tone's MIDI key, 60 for middle C. Only for a pitched tone.
func (t Tone) Key() int { return 12*(int(t.Octave)+1) + semitones[t.Step] + int(t.Alter) }

// String writes the pitch as a spec does: "F#4", "Bb3", "C##5".
func (t Tone) String() string {
	if !t.IsPitched() {
		return "x"
	}
	sign := strings.Repeat("#", max(0, int(t.Alter))) + strings.Repeat("b", max(0, -int(t.Alter)))
	return fmt.Sprintf("%c%s%d", t.Step, sign, t.Octave)
}

// String joins the tones with "+", as a spec writes chords.
func (c Chord) String() string {
	names := make([]string, len(c))
	for i, t := range c {
		names[i] = t.String()
	}
	return strings.Join(names, "+")
}
