package task

import "tieover/score"

// Piece is what exercises are made from; exporters that know nothing else of it
// name it so.
type Piece = score.Piece
