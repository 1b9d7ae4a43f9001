package sheet

import (
	"fmt"
	"strings"

	"tieover/score"
	"tieover/score/fingering"
)

// Head is one notehead. Pitch is as written in this part, after transposition.
type Head struct {
	Step       byte // 0 when unpitched
	Alter      int8
	Octave     int8
	Drum       int // index into Instrument.Drums from 1; 0 when pitched or bare
	Accidental Accidental
	Ghost      bool           // played faintly: printed in parentheses
	Stop       fingering.Stop // in a part with tablature; zero without
}

// Accidental is the sign printed before a head.
type Accidental int

const (
	NoSign Accidental = iota
	DoubleFlat
	Flat
	Natural
	Sharp
	DoubleSharp
	Courtesy Accidental = 1 << 4 // added to a sign: printed in parentheses
)

// SignOf is the sign of an alteration, from -2 to 2 half steps.
func SignOf(alter int8) Accidental {
	return [...]Accidental{DoubleFlat, Flat, Natural, Sharp, DoubleSharp}[alter+2]
}

// KeyAlter is what the key signature does to a letter.
func KeyAlter(k score.Key, step byte) int8 {
	place := strings.IndexByte("FCGDAEB", step) // in the order of sharps
	switch {
	case k.None || place < 0:
		return 0
	case place < k.Fifths:
		return 1
	case 6-place < -k.Fifths:
		return -1
	}
	return 0
}

// String writes the head with the sign printed before it: "F#4" sounds but prints
// nothing, "F(#)4" prints it; "E3[4/2]" is stopped on string 4 at fret 2.
// A ghost note has parentheses around all.
func (h Head) String() string {
	if h.Ghost {
		h.Ghost = false
		return "(" + h.String() + ")"
	}
	if h.Step == 0 {
		return fmt.Sprintf("x%d", h.Drum)
	}
	alter := strings.Repeat("#", max(0, int(h.Alter))) + strings.Repeat("b", max(0, -int(h.Alter)))
	if h.Accidental != NoSign {
		sign := []string{"", "bb", "b", "n", "#", "##"}[h.Accidental&^Courtesy]
		if h.Accidental&Courtesy != 0 {
			sign += "?"
		}
		alter = "(" + sign + ")"
	}
	text := fmt.Sprintf("%c%s%d", h.Step, alter, h.Octave)
	if h.Stop.String > 0 {
		text += fmt.Sprintf("[%d/%d]", h.Stop.String, h.Stop.Fret)
	}
	return text
}
