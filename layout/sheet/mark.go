package sheet

import (
	"cmp"
	"slices"

	"tieover/score"
	"tieover/score/beat"
	"tieover/score/instrument"
)

// Mark is a sign that belongs to a place rather than to a note. What differs
// between otherwise equal bars is always a mark.
type Mark struct {
	Kind   MarkKind
	Voice  int       // index into Measure.Voices
	Before int       // index of the event it stands at; len(Events) is the bar's end
	Offset beat.Time // from that event's start, for a moment inside a held note
	N      int       // the number of CycleNumber, GroupSize and Hairpin
	Text   string
	// Sounding is what a ChordSymbol says at sounding pitch.
	Sounding string
	Tempo    *score.Tempo
	// Technique is the way of playing that a TechniqueMark asks for.
	Technique *instrument.Technique
	// Instrument is what an InstrumentMark has the player take up; nil where it only
	// says what comes next.
	Instrument *instrument.Instrument
}

// MarkKind tells marks apart; what its fields hold is beside each.
type MarkKind int

const (
	Rehearsal    MarkKind = iota // boxed at the barline: section name, realignment label, plan mark
	Boxed                        // boxed words over a note: a realignment inside a bar, a second mark
	TempoMark                    // Tempo
	Words                        // Text above the staff: the plan's
	Cue                          // Text in a part: who enters when
	CycleStart                   // bracket begins
	CycleStop                    // bracket ends, over the event Before
	CycleNumber                  // N: printed iteration; Text "()" where it is printed in parentheses
	Grouping                     // Text: "3+2+2"
	GroupSize                    // N: one group's size; Text GoesOn or GoneOn where the barline cuts it
	DynamicMark                  // Text: "mf"
	HairpinStart                 // N: 1 opens (crescendo), 2 closes (diminuendo)
	HairpinStop
	ChordSymbol // Text as the part reads it, Sounding as the spec has it
	Stroke      // dashed stroke through the staff at a cycle start inside a bar
	ScoreBar    // Text: "score bar 7", in parts with bars of their own

	GradualStart // Text: "rit.", with a line of dashes to
	GradualStop
	TempoStep // Tempo that is played from here on and not printed

	TechniqueMark // Text: "pizz."; "(pizz.)" where it is in force already
	RepeatCount   // N: so many equal bars up to here, over the middle of the last

	InstrumentMark // Text: "Alto Sax."; "to Alto Sax." once the last is over
)

// GoesOn and GoneOn are the Text of a GroupSize over the first and the second
// half of a group that a barline cuts.
const (
	GoesOn = "goes on"
	GoneOn = "gone on"
)

// SortMarks puts the marks of a bar in the order in which they are written: by voice and
// place. Those of one place stay as they are.
func SortMarks(marks []Mark) {
	for i := 1; i < len(marks); i++ {
		if writingOrder(&marks[i-1], &marks[i]) > 0 {
			slices.SortStableFunc(marks, func(a, b Mark) int { return writingOrder(&a, &b) })
			return
		}
	}
}

func writingOrder(a, b *Mark) int {
	return cmp.Or(a.Voice-b.Voice, a.Before-b.Before, int(a.Offset-b.Offset))
}
