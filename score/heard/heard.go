package heard

import (
	"tieover/score/beat"
)

// Score is everything that was read from one file.
type Score struct {
	Title   string
	Parts   []*Part
	Marks   []Mark   // in time order
	Remarks []Remark // what was left out, and what does not add up, in the file's order
	Extract bool     // the file says that it is one player's part and no score
}

// Part is one player's line as it sounds: ties joined, repeats played out,
// transposition undone.
type Part struct {
	ID, Name, Short string
	Attacks         []Attack // by onset, then voice
	Bars            []Bar    // in playing order; a repeated bar occurs again
	Tempos          []Tempo  // in order of time
	Instruments     []Instrument
	Tick            beat.Span // of a MIDI file, what all its times are counted in; else zero
	Clef            string    // the first: "G2", "F4", "C3", "percussion"; "" when none is given
}

// Tempo is how fast the music goes from a moment on.
type Tempo struct {
	At       beat.Span // from the start of the piece
	Quarters beat.Span // a minute
	Beat     beat.Span // the note value that its metronome mark counts; zero where none says the same
}

// Quarters returns the first tempo in quarters a minute, zero when none is given.
func (p *Part) Quarters() beat.Span {
	if len(p.Tempos) == 0 {
		return beat.Span{}
	}
	return p.Tempos[0].Quarters
}

// Instrument is what a file says of one instrument or drum sound of a part.
type Instrument struct {
	Name    string
	Sound   string // id in the MusicXML list of standard sounds
	Program int    // General MIDI program from 1; 0 when not given
}

// Attack is one sounded event. Tones of one chord that end at different
// times are attacks of their own.
type Attack struct {
	Onset  beat.Span // from the start of the piece, in whole notes
	Length beat.Span // sounding, over all its ties
	Tones  []Tone    // lowest first where they are pitched, else in the file's order
	Voice  string
	Accent bool
	Slash  bool // its head is a slash: a rhythm or a beat, whatever is played
	Beat   bool // it is a slash without a stem: a beat, and no rhythm that is played
	On     int  // of pitches: which of the part's Instruments plays them, from 1; 0 where the file does not say
}

// Tone is what one notehead sounds. The zero value is a bare rhythm.
type Tone struct {
	Step          byte // 'A' to 'G', sounding; 0 when not spelled as a pitch
	Alter, Octave int8
	Name          string // of an unpitched sound, or of a pitch between the keys
	Shown         string // where an unpitched sound is written, as a treble clef reads it: "C5"
	MIDI          uint8  // key number plus 1, as MusicXML counts it; 0 when not known
}

// Bar is one bar as it is played.
type Bar struct {
	Number  string // as the file numbers it; need not be a number
	Printed string // as a page shows it, where that is something else; else ""
	Pass    int    // 1 the first time it is played
	Start   beat.Span
	Length  beat.Span
	Skipped beat.Span   // of a pickup: how much of a whole bar comes before it
	Beats   []beat.Span // lengths of its beats; they may sum to more or less than Length
	Meter   string      // "5/4", "3+2+2/8"; "" when none is given
}

// Mark is a sign of form: a rehearsal letter or boxed words.
type Mark struct {
	At   beat.Span
	Text string
}

var semitones = map[byte]int{'C': 0, 'D': 2, 'E': 4, 'F': 5, 'G': 7, 'A': 9, 'B': 11}

// Key returns the MIDI key that the tone sounds, 60 for middle C. ok is false
// when the file does not say.
func (t Tone) Key() (key int, ok bool) {
	switch {
	case t.Step != 0:
		return 12*(int(t.Octave)+1) + semitones[t.Step] + int(t.Alter), true
	case t.MIDI > 0:
		return int(t.MIDI) - 1, true
	}
	return 0, false
}

// End returns when the part's last bar is over, or its last sound if that is
// later.
func (p *Part) End() beat.Span {
	var end beat.Span
	if n := len(p.Bars); n > 0 {
		end = p.Bars[n-1].Start.Add(p.Bars[n-1].Length)
	}
	for _, a := range p.Attacks {
		if over := a.Onset.Add(a.Length); over.Cmp(end) > 0 {
			end = over
		}
	}
	return end
}

// End returns when the last of the parts is over.
func (s *Score) End() (end beat.Span) {
	for _, p := range s.Parts {
		if over := p.End(); over.Cmp(end) > 0 {
			end = over
		}
	}
	return end
}

// Find returns the part with the given name, id or short name. ok is false
// when no part has it.
func (s *Score) Find(name string) (part *Part, ok bool) {
	for _, field := range []func(*Part) string{
		func(p *Part) string { return p.Name },
		func(p *Part) string { return p.ID },
		func(p *Part) string { return p.Short },
	} {
		for _, p := range s.Parts {
			if field(p) == name && name != "" {
				return p, true
			}
		}
	}
	return nil, false
}
