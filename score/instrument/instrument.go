package instrument

import "strings"

// Instrument is one row of the table. Pitches are given as MIDI keys.
type Instrument struct {
	Name   string // as a spec writes it: "marimba", "bass clarinet"
	Label  string // as a score prints it: "Marimba"
	Short  string // "Mar."
	Family Family

	Clef   Clef
	Staves int // 1, or 2 for a keyboard
	Lines  int // of the staff: 5, or 1 for a single percussion sound

	// Written plus this transposition is sounding: -1 diatonic step and -2
	// semitones for an instrument in B flat.
	Diatonic, Chromatic, Octave int

	Low, High int // sounding range in MIDI keys, common practice; 0, 0 when unpitched

	Tuning string // of the strings over its frets, sounding, the lowest first: "E1 A1 D2 G2"; "" without frets

	Sound   string // id in the MusicXML list of standard sounds
	Program int    // General MIDI program from 1; percussion plays on channel 10 instead

	Drums []Drum // the sounds of an unpitched instrument; the first is its default

	Most     int // most notes one player sounds at once, common practice
	Reach    int // widest of these in semitones; 0: no limit
	RepeatMS int // fastest repetition in milliseconds, common practice
}

// Drum is one sound of an unpitched percussion instrument.
type Drum struct {
	Name   string // as a spec writes it: "snare", "closed hi-hat"
	Label  string
	Sound  string // id in the MusicXML list of standard sounds
	Key    int    // General MIDI key from 0
	Step   byte   // its place on the staff, read as in treble clef
	Octave int
	Head   Head
	Feet   bool // played with a foot: second voice, stems down
}

// Family groups instruments in score order and under one bracket.
type Family int

const (
	Woodwind Family = iota
	Brass
	Percussion
	Plucked
	Keyboard
	Voice
	Strings
	Bare // rhythm without an instrument
)

func (f Family) String() string {
	return [...]string{"woodwind", "brass", "percussion", "plucked", "keyboard", "voice", "strings", "rhythm"}[f]
}

// Head is the shape of a notehead.
type Head int

const (
	Normal Head = iota
	Cross       // an x
	Diamond
	Triangle
	CircleCross
)

// Clef is a clef sign, 'G', 'F', 'C', 'P' for percussion or Tab, on a line counted
// from below, sounding Octave octaves higher than it reads.
type Clef struct {
	Sign   byte
	Line   int
	Octave int
}

// Tab is the sign of a staff whose lines are strings.
const Tab = 'T'

// Called returns the label in a short form, to tell a player to take the instrument up
// (common practice).
func (i *Instrument) Called() string { return strings.ReplaceAll(i.Label, "Saxophone", "Sax.") }

// InWords returns the name as a sentence has it: "clarinet in A", where a spec writes
// it small.
func (i *Instrument) InWords() string {
	if name, key, ok := strings.Cut(i.Name, " in "); ok {
		return name + " in " + strings.ToUpper(key)
	}
	return i.Name
}

// IsDry reports whether a sound is over once it is struck, so that its length is
// not written with ties: all drums, and the xylophone (common practice).
func (i *Instrument) IsDry() bool {
	return i.IsUnpitched() && i.Family != Bare || i.Name == "xylophone"
}

// IsUnpitched reports whether the instrument has drum sounds instead of pitches.
func (i *Instrument) IsUnpitched() bool { return len(i.Drums) > 0 }
