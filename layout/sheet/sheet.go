package sheet

import (
	"iter"
	"slices"

	"tieover/score"
	"tieover/score/beat"
	"tieover/score/instrument"
)

// Sheet is a piece as it will be read. It is small: bars are made while they
// are walked.
type Sheet struct {
	Title, Subtitle, Composer, Arranger, Rights string

	Grid  beat.Grid
	Parts []Part
	Bars  int // every part has this many

	Edition   Edition      // how much analysis is printed
	Respelled []Respelling // pitches that transposition by interval would have written oddly
}

// Edition says how much analysis is printed.
type Edition int

const (
	Study Edition = iota // brackets, numbers, groupings, and strokes where a cycle starts off the barline
	Play                 // a count in parentheses at each cycle; groupings only where they are new
)

// Respelling is a pitch that a part writes otherwise than plain transposition
// by interval would have it.
type Respelling struct {
	Part     string
	Sounding score.Tone
	Instead  score.Tone // what the interval gives: a double sign, E sharp, B sharp, C flat or F flat
	Written  score.Tone
}

// PageRoom is how high the room for music on a page is, in staff heights: on
// the first page, below the title, and on the others. Parts printed alone then
// begin new pages where a rest leaves time to turn. The zero value leaves pages
// to the reader.
type PageRoom struct{ First, Others int }

// Part is what one player reads.
type Part struct {
	Name, Short string
	Instrument  *instrument.Instrument   // that it begins with
	Instruments []*instrument.Instrument // all that the player has, in the order in which they are taken up; nil for just one
	Staves      []Staff
	Layers      []string                             // the names of the layers written in it, voice by voice; several may share a voice
	Concert     bool                                 // written at sounding pitch but for octaves
	Chord       func(bar *Bar, symbol string) string // how the part reads a chord symbol; nil: as it sounds
	Walk        func(yield func(*Bar) bool)
	Begins      *Begins // nil: not known
}

// ClefIn returns the clef of a staff, from 1, in a bar.
func (p *Part) ClefIn(m *Measure, staff int) instrument.Clef {
	if m.Clefs == nil {
		return p.Staves[staff-1].Clef
	}
	return m.Clefs[staff-1]
}

// ChordsOn returns the index of the part over which chord symbols stand: the
// first that reads pitches, else the top one.
func ChordsOn(parts []Part) int {
	return max(0, slices.IndexFunc(parts, func(p Part) bool { return p.Pitched() }))
}

// Begins says what begins inside a part.
type Begins struct{ systems, pages bool }

// See takes in one bar of the part, in order.
func (b *Begins) See(bar *Bar) {
	b.systems = b.systems || bar.Break == NewSystem
	b.pages = b.pages || bar.Break == NewPage
}

// Breaks reports whether the part says where systems begin, and pages.
func (p *Part) Breaks() (systems, pages bool) {
	found := p.Begins
	if found == nil {
		found = &Begins{}
		for bar := range p.Bars() {
			if found.See(bar); found.systems && found.pages {
				break
			}
		}
	}
	return found.systems, found.pages
}

// Bars walks the part's bars in order. It can be called again and yields the
// same. The yielded bar is only good until the next one; its Measure stays.
func (p *Part) Bars() iter.Seq[*Bar] { return p.Walk }

// NewPart returns a part with bars made by walk; for tests of exporters and for
// parts that are cut out of others.
func NewPart(p Part, walk iter.Seq[*Bar]) Part {
	p.Walk, p.Begins = walk, nil
	return p
}

// Bar is one bar where it stands.
type Bar struct {
	Number        int // as printed, from 1; 0 for a pickup
	Start         beat.Time
	Measure       *Measure
	Marks         []Mark  // in writing order: by voice, then Before, then as they are read from the staff outwards
	Barline       Barline // at its right
	Left          Barline // at its left: only RepeatStart or Plain
	Times         int     // of a bar with RepeatStart or RepeatEnd: how often it is played
	Break         Break   // before it
	Rest          int     // n > 0: this is the first of n empty bars that a part may gather
	NewMeter      bool    // the signature is printed here
	NewKey        bool
	NewClef       bool   // clefs are written before it; the part's first bar has them anyway
	NewInstrument bool   // the player takes up another instrument
	Implicit      bool   // bars without a printed number
	Printed       string // printed instead of Number; "" for Number itself

	Realigned bool // all layers of the set realign at its left barline, under a label or at the section's start
	Forced    bool // a cut makes them
	Divides   bool // a system may begin there

	// Repeats has for each of two staves how many bars in a row are equal, this one
	// included, where a sign stands for it; 0 where its notes do.
	Repeats [2]int

	Empty   bool // nothing sounds in it
	Section int
}

// Break is a new system or page before a bar.
type Break int

const (
	NoBreak Break = iota
	NewSystem
	NewPage
)

// Barline is the sign at the edge of a bar.
type Barline int

const (
	Plain Barline = iota
	Double
	Final
	RepeatStart
	RepeatEnd
	Dashed
)

// Measure is what stands in a bar. Equal bars of a part share one Measure,
// which is never changed, so exporters may cache by the pointer.
type Measure struct {
	Signature score.Signature
	Key       score.Key
	// Instrument is that which the player holds; nil: that of the part.
	Instrument *instrument.Instrument
	Clefs      []instrument.Clef // of the staves; nil: those of the part
	Length     beat.Time
	Skipped    beat.Time // of a pickup: how much of its bar lies before it
	Voices     []Voice   // in order of staff and voice number; at least one
}

// Voice is one line of events that follow each other without a gap and fill
// the bar.
type Voice struct {
	Staff  int // from 1
	Number int // unique in the part: 1–4 on staff 1, 5–8 on staff 2
	Stem   Stem
	Small  bool          // written in small notes: another player's rhythm
	As     score.Written // notes; AsRhythm and AsSlashes have bare heads, slashes on the middle line
	Layer  string        // the name of what is written in it, the first of several; "" where it is no layer
	Events []Event
}

// Stem says which way the stems of a voice go.
type Stem int

const (
	StemFree Stem = iota // left to the reader
	StemUp
	StemDown
)

// String names where a stem points, "" if that is free.
func (s Stem) String() string {
	switch s {
	case StemUp:
		return "up"
	case StemDown:
		return "down"
	}
	return ""
}

// Held reports whether a fermata stands in the bar.
func (m *Measure) Held() bool {
	return slices.ContainsFunc(m.Voices, func(v Voice) bool {
		return slices.ContainsFunc(v.Events, func(e Event) bool {
			n, _ := e.(*Note)
			r, _ := e.(*Rest)
			return n != nil && n.Fermata || r != nil && r.Fermata
		})
	})
}

// Event is a Note or a Rest; a new kind is added here, in view of all exporters.
type Event interface {
	At() beat.Time   // from the bar's start
	Span() beat.Time // how long it lasts
	event()
}

// Note is one written chord of one or more heads. A sound longer than its
// notation goes on through ties.
type Note struct {
	Start, Length beat.Time
	Value         Value
	Tuplet        *Tuplet
	TupletStart   bool
	TupletStop    bool
	Heads         []Head
	TieIn, TieOut bool
	Beams         []Beam // one a level, from level 1; empty when unbeamed
	BeamIn        bool   // its first beam comes over the left barline
	BeamOut       bool   // its first beam goes on over the right barline
	Fermata       bool
	Accent        bool          // printed here: only where the sound begins
	Touch         score.Touch   // where the sound begins, but for Ghost, which its heads say; of pieces tied in only what is Stroked
	Graces        []*Note       // small notes before it, in order, of no length
	Lyrics        []score.Lyric // by verse; an entry without text begins nothing
	Slur          score.Slur    // begins or ends here
	Group         int           // size in pulses of the group it begins, 0 when it begins none
	Layers        []string      // the names of those that strike it, where several share the voice; else nil
}

// Stroked are the touches that every tied piece of a sound shows, as strokes
// through its stem.
const Stroked = score.Roll | score.Tremolo

// Beam is what one note has at one beam level.
type Beam int

const (
	NoBeam Beam = iota // no beam at this level
	BeamBegin
	BeamContinue
	BeamEnd
	HookForward
	HookBackward
)

// Tuplet is one written tuplet; its notes share the pointer.
type Tuplet struct {
	Actual, Normal int
	Unit           Value // what Actual and Normal count
	Bracket        bool
	ShowRatio      bool // print "5:3" rather than "5"
	ShowNumber     bool
}

// Rest is a written silence.
type Rest struct {
	Start, Length beat.Time
	Value         Value // unused when Whole
	Whole         bool  // a whole-bar rest, whatever the meter
	Tuplet        *Tuplet
	TupletStart   bool
	TupletStop    bool
	Fermata       bool
	Hidden        bool // keeps the time of a second voice and is not printed
}

func (n *Note) At() beat.Time   { return n.Start }
func (n *Note) Span() beat.Time { return n.Length }
func (*Note) event()            {}
func (r *Rest) At() beat.Time   { return r.Start }
func (r *Rest) Span() beat.Time { return r.Length }
func (*Rest) event()            {}
