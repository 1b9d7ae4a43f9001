package rows

// Hiding is a set of things that a chart leaves out, because they are what a
// student is asked to find.
type Hiding uint

const (
	HideTogether Hiding = 1 << iota // blanks to fill in instead of the composite, no gaps
	DropTogether                    // no composite at all
	HideLabels                      // realignments: labels, doubled barlines, landing, and counts that start over
	HideStarts                      // cycle numbers, lateness and lengths
	HideCycles                      // X is written as x
	HideGroups                      // every attack is x, every sounding pulse -
)

// Has reports whether one thing is hidden.
func (h Hiding) Has(one Hiding) bool { return h&one != 0 }
