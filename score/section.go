package score

import (
	"tieover/score/beat"
	"tieover/score/source"
)

// Piece is one or more sections played one after another.
type Piece struct {
	Title, Subtitle, Composer, Arranger, Rights string

	Grid     beat.Grid // holds every pulse, barline and attack of all sections
	Sections []*Section

	Warnings source.Problems // what is doubtful but not wrong
	Source   source.Texts    // the files that it was read from, to quote; nil when from none
}

// Section is a stretch of music with its own layers, meter, tempo and plan. Times
// count from its bar 1; those of a pickup before that are negative.
// After Settle every field below holds a final, checked value.
type Section struct {
	Pos  source.Pos
	Name string // "" when the spec gives none; Letter then names its labels

	Grid     beat.Grid
	Start    beat.Time // where the section's bar 1 begins in the piece
	FirstBar int       // the piece's number of the section's bar 1
	Last     bool      // no section follows

	Tempo  Tempo
	Key    Key
	Pulse  beat.Pulse // what section-wide numbers count
	Meter  Meter      // from the section's start; plan entries may change it
	Length beat.Time  // how long the section sounds from bar 1 on
	Pickup beat.Span  // how much of a bar sounds before bar 1, once however often the section is played; 0: none
	End    End
	Times  int // for Repeat: how often the section is played, 2 to 99; 0 says 2

	// Set is the realigning set: indexes into Layers, in order.
	Set []int
	// WithBarline adds the barline to the set; always true for a set of one.
	WithBarline bool

	Layers []*Layer
	Plan   []PlanEntry // in time order once settled

	Recording *Recording // nil without one

	// As written, before Settle.
	LengthRule LengthRule
	PickupPos  source.Pos
	SetNames   []Named // the `realign:` list as written; nil for the default

	written *Section // of one that is barred as it is felt: as it is written; else nil

	letter  string  // prefix of the realignment labels
	barring barring // filled by Settle
	tempi   []TempoAt
	speeds  []Speed
	keys    []KeyAt
	meeting *meeting  // of the realigning set
	reach   beat.Time // how far changing cycles are walked
	attacks int       // at most so many; counted exactly where the piece comes near the limit
}

// Named is a name as the spec wrote it, with its place.
type Named struct {
	Name string
	Pos  source.Pos
}

// End says what happens when the section's length is over.
type End int

const (
	Stop   End = iota // silence
	Land              // one more bar in which every layer strikes its head attack once
	Repeat            // the section is repeated from bar 1
)

func (e End) String() string { return [...]string{"stop", "land", "repeat"}[e] }

// LengthRule is the section's length as the spec states it.
type LengthRule struct {
	Pos     source.Pos
	Kind    LengthKind
	N       int64 // how many; at least 1
	Default bool  // none was written: to the first realignment at which all that is cut starts over
}

type LengthKind int

const (
	Realignments LengthKind = iota // to the Nth realignment; the default is 1
	Bars                           // N bars
	Pulses                         // N of the section's pulses
	Returns                        // until all heads, pitch series and processes are home together, N times
	Ticks                          // N ticks of the grid: as long as another section; no spec says so
)

// String names the unit: "bar".
func (k LengthKind) String() string {
	switch k {
	case Realignments:
		return "realignment"
	case Bars:
		return "bar"
	case Pulses:
		return "pulse"
	case Returns:
		return "return"
	}
	return "tick"
}
