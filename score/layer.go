package score

import (
	"cmp"
	"slices"

	"tieover/score/beat"
	"tieover/score/fingering"
	"tieover/score/instrument"
	"tieover/score/process"
	"tieover/score/source"
)

// Layer is one voice with its own cycle.
type Layer struct {
	Pos    source.Pos
	Name   string   // unique in the section
	Short  string   // abbreviation; never empty
	Player string   // layers of one player share a part; "" means the layer's own name
	Of     []*Layer // the layers of a composite; nil for a layer of the spec

	Instrument *instrument.Instrument // never nil; instrument.Rhythm when none is given
	Pulse      beat.Pulse
	Unit       beat.Time // one pulse in ticks

	Patterns []Pattern  // taken in turn, one a cycle; empty only for a Line
	Line     []LineNote // a free line, once through, instead of Patterns
	Slurring Slurring
	Strike   Strike         // how a group without a figure is played
	Figures  map[int][]Sign // exact rhythm by group size
	Accent   Accent
	Touches  []Touch          // dealt one per attack, from the start of each cycle; nil: all plain
	Series   [][]Chord        // pitch series, taken in turn; nil for unpitched rhythm
	SeriesBy SeriesBy         // what the next series waits for
	Restart  Restart          // when the series starts over
	Tails    Tails            // how a sound that crosses a barline is written
	Written  Written          // as notes, slashes …
	Dynamic  string           // "mf"; "" when none
	Clef     *instrument.Clef // that it is read in; nil: the instrument's
	Tuning   []Tone           // of the strings that its part shows in tablature too, lowest first; nil without
	Pan      *int             // -90 left … 90 right; nil: spread by default
	Offset   int64            // in the layer's pulses; positive is later, negative starts inside cycle 1
	Loop     Loop
	CutEvery int         // bars, for CutBars
	Process  []Process   // applied in order
	Until    Until       // when processes are reset
	Except   []Exception // cycles and bars that deviate

	EnterAt, LeaveAt *Place         // as written; nil: start and end of the section
	Enters, Leaves   beat.Time      // settled: sounds in [Enters, Leaves)
	First            beat.Time      // settled: where cycle 1, or the line, begins; may lie before Enters or the section
	Syllables        map[int]string // words by group size, one syllable a pulse, separated by spaces
	Verses           []Verse        // what is sung; a layer has Syllables or Verses

	slurs    []plannedSlur             // of the plan, in order; filled by Settle
	walkedIn *Section                  // of a second version: where its cycles are walked; nil: in its own section
	byCycle  map[int]int               // which of Except is for a cycle, from 1; filled by Settle
	once     *onceThrough              // of a Line; filled by Settle
	hands    map[*Tone]*fingering.Hand // of its chords, by their first tones; filled by Finger
	resumes  bool                      // its player comes from another dynamic than Unmarked; filled by Settle
	writing  []WrittenFrom             // how it is written beside the player's other layers; filled by Settle
}

// PlayerName returns the player's name: the layer's own if it names none.
func (l *Layer) PlayerName() string { return cmp.Or(l.Player, l.Name) }

// Chords lists the chords of the layer's series, of its exceptions and of its line, as
// often as they are written, with the grace notes before them.
func (l *Layer) Chords() []Chord {
	all := slices.Concat(l.Series...)
	for _, e := range l.Except {
		all = append(all, e.Series...)
	}
	for _, n := range l.Line {
		all = append(all, n.Tones)
	}
	return all
}

// Opening returns where the layer's part of the section begins: at 0, also where it
// enters later, or before it in the pickup.
func (l *Layer) Opening() beat.Time { return min(l.Enters, 0) }

// Pattern is one cycle as the spec writes it, either by groups or in box
// notation, which then may have groups for the beaming.
type Pattern struct {
	Groups []Item // never empty once read; sum of sizes is the cycle's length
	Box    []Sign // one sign a pulse; nil unless written as a box
}

// Item is one group of a pattern.
type Item struct {
	Size  int // pulses, at least 1
	Blank bool
}

// CountPulses returns how many pulses the groups have together.
func CountPulses(groups []Item) int {
	n := 0
	for _, g := range groups {
		n += g.Size
	}
	return n
}

// Sign is one step of a figure or a box.
type Sign byte

const (
	SignAttack Sign = 'x' // an attack begins
	SignHold   Sign = '=' // the last attack goes on
	SignRest   Sign = '.' // nothing sounds
)

// Strike is how the attacks of a group are made when no figure says it.
type Strike int

const (
	StrikeHold  Strike = iota // one attack that lasts the group
	StrikeShort               // one attack of one pulse, then rest
	StrikeAll                 // every pulse
)

func (s Strike) String() string { return [...]string{"hold", "short", "all"}[s] }

// Accent says which attacks are accented.
type Accent int

const (
	AccentNone  Accent = iota
	AccentGroup        // an attack exactly at the start of a group
	AccentAll
)

// SeriesBy says what the next of several pitch series waits for.
type SeriesBy int

const (
	EachCycle       SeriesBy = iota
	EachRealignment          // the first holds from the start, the next from the first realignment on, inside a cycle too
)

// Restart says when a pitch series starts over.
type Restart int

const (
	RestartCycle Restart = iota
	RestartRealignment
	RestartNever
)

// Tails says how a sound that crosses a barline is written.
type Tails int

const (
	Tied     Tails = iota // tied over
	CutTails              // never tied: the first sign of each sound, then rests
)

// Holds reports whether a sound of the layer lasts as long as it is written, and is tied
// where it goes on.
func (l *Layer) Holds(a *Attack) bool { return l.Tails != CutTails || a.Touch.Has(Rolled) }

// Loop says whether a layer's cycles run on or are cut short.
type Loop int

const (
	Run Loop = iota
	CutBars
	CutRealignment
)

// Until says when the processes of a layer are reset.
type Until int

const (
	UntilNever Until = iota
	UntilRealignment
)

// Process is a rule that changes the cycle from one pass to the next, and where
// the spec says so.
type Process struct {
	process.Rule
	Pos source.Pos
}

// Exception makes one cycle or one bar deviate. A cycle takes the given groups
// or pitches, or rests for its length; in a bar the layer plays the given
// groups from the barline, or rests, while its cycle runs on unheard.
type Exception struct {
	Pos     source.Pos
	Cycle   int // from 1; 0 if a bar is meant
	Bar     int // the section's bar, from 1; 0 if a cycle is meant
	Rest    bool
	Pattern *Pattern // nil: the layer's own
	Series  []Chord  // nil: the layer's own
}

// LineNote is one note or rest of a free line.
type LineNote struct {
	Length beat.Time
	Tones  Chord // empty: a rest
}

// Touch is how one attack is played: a set of touches.
type Touch uint16

// Plain is the empty set.
const Plain Touch = 0

const (
	Accented Touch = 1 << iota
	Marcato
	Ghost // played faintly, head in parentheses
	Staccato
	Tenuto
	Roll    // struck again and again while it lasts, as the next
	Tremolo // the same, for those who bow or hammer it
	Trill   // in turn with the major second above
	Flam    // its own sound leads in once
	Drag    // twice
)

// Rolled is the set of touches that fill a sound with strokes.
const Rolled = Roll | Tremolo | Trill

// Has reports whether the set has one of the given touches.
func (t Touch) Has(any Touch) bool { return t&any != 0 }

// Each lists the touches of the set, accents first.
func (t Touch) Each() []Touch {
	var list []Touch
	for one := Touch(1); one <= t && one != 0; one <<= 1 {
		if t.Has(one) {
			list = append(list, one)
		}
	}
	return list
}
