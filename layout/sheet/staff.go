package sheet

import (
	"slices"

	"tieover/score"
	"tieover/score/beat"
	"tieover/score/instrument"
)

// Staff is one staff of a part.
type Staff struct {
	Clef  instrument.Clef
	Lines int
	Small bool // a partner's rhythm
	// Tuning of tablature, the lowest string first; nil for a staff of notes. It has no
	// voices: it shows those of the staff above by the strings and frets of their heads.
	Tuning []score.Tone
}

// Tablature reports whether the part has a staff of strings.
func (p *Part) Tablature() bool {
	return slices.ContainsFunc(p.Staves, func(s Staff) bool { return s.Tuning != nil })
}

// RepeatsIn is Repeats of a staff of the part, from 1; tablature is as the staff above.
func (p *Part) RepeatsIn(b *Bar, staff int) int {
	switch {
	case p.Staves[staff-1].Tuning != nil:
		staff--
	case staff > len(b.Repeats):
		return 0
	}
	return b.Repeats[staff-1]
}

// MiddleIn is the pitch on the middle line of a staff, from 1, in a bar's clef.
func (p *Part) MiddleIn(m *Measure, staff int) (step byte, octave int) {
	s := p.Staves[staff-1]
	s.Clef = p.ClefIn(m, staff)
	return s.Middle()
}

// Middle is the pitch that stands on the middle line, without its alteration;
// percussion is read as in treble clef, one line as its lowest.
func (s Staff) Middle() (step byte, octave int) {
	c := s.Clef
	place := 4*7 + 6 // B4, in steps from C0
	switch {
	case c.Sign == 'G':
		place -= 2 * (c.Line - 2)
	case c.Sign == 'F':
		place = 3*7 + 1 - 2*(c.Line-4) // D3 in bass clef
	case c.Sign == 'C':
		place = 4*7 - 2*(c.Line-3)
	case s.Lines == 1:
		place = 4*7 + 2
	}
	place += 7 * c.Octave
	return StepAt(place)
}

// Steps counts the steps of the scale from C0 to a pitch without its alteration.
func Steps(step byte, octave int) int { return 7*octave + (int(step)-'C'+7)%7 }

// StepAt is the pitch so many steps from C0, without an alteration.
func StepAt(steps int) (step byte, octave int) {
	octave = beat.FloorDiv(steps, 7)
	return "CDEFGAB"[steps-7*octave], octave
}
