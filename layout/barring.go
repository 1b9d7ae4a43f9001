package layout

import (
	"iter"

	"tieover/score"
)

// barsOf returns the bars of a part where they are not the section's own.
func barsOf(p *score.Piece, o *Options, player score.Player) func(section int) iter.Seq[score.Bar] {
	if o.Barring.View == Common {
		return nil
	}
	return nil
}
