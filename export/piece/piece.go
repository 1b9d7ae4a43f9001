// Package piece bundles what exporters are handed.
package piece

import (
	"tieover/layout"
	"tieover/score"
)

// Piece is one piece in all its stages. Exporters read what their row of the
// import table allows and change nothing.
type Piece struct {
	Score *score.Piece
	Sheet *layout.Sheet
}
