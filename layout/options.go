package layout

import "tieover/layout/sheet"

// Options say how a piece is to be written. The zero value is the default: the
// spec's meter for everybody, spelling and beams by the groups, the study
// edition with all its marks, and breaks where the layers realign.
type Options struct {
	Barring          Barring
	Spelling         Spelling
	Strict           bool // spelling by meter: no syncopation is written over a stronger division
	DoubleDots       bool // 7 units may be one sign with two dots
	Beams            Beaming
	BeamOverBarlines bool
	Marks            Marking
	Edition          sheet.Edition
	Concert          bool // parts at sounding pitch; octave transpositions stay
	Breaks           Breaking
	Line             int            // how wide a line is, in 1/100 of a staff space; 0 for sheet.LineWidth
	Page             sheet.PageRoom // of parts printed alone, with BreakAuto
	Cues             Cueing
	Partner          string // a layer whose rhythm is printed on a small one-line staff above a single part
	FewNumbers       bool   // tuplet numbers only in the first two bars of a section
}

// Barring says whose bars are written.
type Barring struct {
	View  View
	Layer string // for ByLayer
	Split bool   // a cycle is written as several equal bars if its groups allow it
}

// View is one way to draw barlines.
type View int

const (
	Common  View = iota // the meter of the spec
	ByLayer             // each cycle of one layer is a bar, for every part
	Own                 // each part in its own cycles: only where a part is written alone
)

// Spelling says which divisions a written note may hide.
type Spelling int

const (
	SpellAuto  Spelling = iota // by the meter in 6/8, 9/8, 12/8, else by groups while the pulse is at least half a beat
	SpellGroup                 // a group keeps its own value wherever it falls
	SpellMeter                 // the divisions of the meter stay visible
)

// Beaming says what beams show.
type Beaming int

const (
	BeamGroups Beaming = iota
	BeamMeter
)

// Marking is a set of analytical marks.
type Marking uint8

const (
	MarkCycles Marking = 1 << iota // brackets from the head of each cycle to its last note
	MarkGroups                     // iteration numbers and groupings
	MarkSizes                      // the size over each group
	MarkNone                       // nothing, whatever else is in the set
)

// all returns the set that is meant: the zero value asks for cycles and groups.
func (m Marking) all() Marking {
	switch {
	case m == 0:
		return MarkCycles | MarkGroups
	case m&MarkNone != 0:
		return 0
	}
	return m
}

// Breaking says where new systems begin.
type Breaking int

const (
	BreakAuto    Breaking = iota // at realignments, several short periods to a system, long ones in equal pieces
	BreakRealign                 // at each realignment on a barline
	BreakNone                    // left to the reader
)

// Cueing says how an entry after a long rest is prepared.
type Cueing int

const (
	CueWords Cueing = iota
	CueNotes        // also two bars of another player's rhythm in small notes
	CueNone
)
