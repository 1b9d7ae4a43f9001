package rows

import (
	"iter"

	"tieover/score"
	"tieover/score/beat"
)

// Chart is one section with the layers that its chart shows.
type Chart struct {
	Section *score.Section
	Layers  []int // indexes into Section.Layers, rising; the composite is theirs alone

	signatures []score.Signature // that the bars may have, each once
}

// Of returns the chart of the given layers, of all when layers is nil.
func Of(s *score.Section, layers []int) *Chart {
	if layers == nil {
		for i := range s.Layers {
			layers = append(layers, i)
		}
	}
	return &Chart{Section: s, Layers: layers, signatures: signatures(s)}
}

// Sign is what a layer does at one moment.
type Sign int

const (
	Silent   Sign = iota
	Sounding      // an attack from before goes on
	Cycle         // struck, at the cycle's head: its start, unless a process moves that
	Group         // struck, and a group begins
	Inner         // struck inside a group
)

// Struck reports whether the sign is an attack.
func (s Sign) Struck() bool { return s >= Cycle }

// Cell is one moment of a layer in a bar: one of its pulses, or a point
// between two where something is struck or stops.
type Cell struct {
	At     beat.Time // from the bar's start
	Sign   Sign
	Count  int         // for Sounding: which pulse of its group this is, from 1
	Tones  score.Chord // for an attack, as the next three
	Accent bool
	Touch  score.Touch
	Slur   score.Slur
	Led    bool          // grace notes lead in to it
	Words  []score.Lyric // what is sung or spoken to an attack, by verse, and spoken on a pulse that is held
}

// Touches lists how an attack is played, the accent first; nothing when it is
// plain.
func (c *Cell) Touches() []score.Touch {
	if c.Accent {
		return (c.Touch | score.Accented).Each()
	}
	return c.Touch.Each()
}

// Start is the beginning of a cycle, or a change in a layer's presence.
type Start struct {
	At       beat.Time // from the bar's start
	Number   int       // as printed, from the last realignment or restart; 0 when no cycle begins
	Lateness Lateness
	Groups   []score.Group // in played order; only where the sizes changed after the first cycle
	Restart  bool          // the cycle before was cut so that this one begins here
	Enters   bool          // the layer's first cycle, later than the section's start
	Leaves   bool          // the layer is silent from here to the section's end
	Plain    bool          // one of several equal cycles in each bar: its number and lateness tell nothing
}

// Row is one layer in one bar.
type Row struct {
	Layer   int // index into Section.Layers
	Cells   []Cell
	Starts  []Start
	Slurred bool  // a slur goes on over the barline at the bar's start
	Held    bool  // a sound goes on over the barline at the bar's end
	Pulses  int64 // how long, in the layer's pulses, the cycle is that sounds first in the bar; 0 when none does
}

// Hit is one moment of the composite.
type Hit struct {
	At     beat.Time // from the bar's start
	Layers []int     // places in Chart.Layers of those who strike; none: a pulse that nobody strikes
	Gap    beat.Time // to the next hit, or to the section's end; 0 of the landing, which nothing follows
}

// Label marks a realignment.
type Label struct {
	At   beat.Time // from the bar's start
	Text string
}

// Bar is everything a chart shows of one bar. It is good until the next one is
// asked for.
type Bar struct {
	score.Bar
	Rows     []Row // in the order of Chart.Layers
	Together []Hit
	Labels   []Label // realignments, then marks of the plan; in time order
	Plan     []*score.PlanEntry
	Double   bool // a realignment stands at the barline at its end
	Closes   bool // the section ends with it
}

// Bars walks the section's bars in order. The bar that `end: land` adds is not
// among them: it is the landing.
func (ch *Chart) Bars() iter.Seq[*Bar] {
	return func(yield func(*Bar) bool) {
		w := newWalk(ch)
		defer w.stop()
		for b := range ch.Section.Bars() {
			if b.Landing {
				return
			}
			if !yield(w.bar(b)) {
				return
			}
		}
	}
}
