package chart

import (
	"fmt"
	"io"

	"tieover/layout/rows"
	"tieover/score"
)

// Options says how a chart is set. The zero value is not useful; start from
// Default.
type Options struct {
	Width   int  // columns, at least Narrowest
	ASCII   bool // no byte above 127
	Bare    bool // rows only: no heading, legend or closing lines
	Pitches bool // a row of pitch or drum names under each layer
	Touches bool // accents and touches over the strokes of each layer
	Sung    bool // a row of syllables or lyrics below each layer, one a verse
	Compact bool // letters instead of names, no gaps row
	Drift   bool // instead of the rows: each layer's cycles under one another
	Layers  []string
	From    int         // first bar shown, as numbered in the piece; 0: all
	To      int         // last bar shown; 0: to the end
	Notes   []string    // of each section, what is said of it under the heading; nil: nothing
	Closing [][]string  // of each section, more closing lines; nil: none
	Order   [][]int     // of each section, its layers in the order of their rows; nil: the spec's
	Hide    rows.Hiding // for worksheets: what the student is to find
	Words   string      // text of the template for heading and closing lines, if File names one
	File    string      // where Words came from, for its errors; "": the built-in template
}

// Narrowest is the least width at which a chart is set.
const Narrowest = 24

// Widest bounds the width, so that a line stays a line.
const Widest = 10000

// Default is 80 columns of UTF-8.
func Default() Options { return Options{Width: 80} }

// Write writes the whole chart of a piece. Memory does not grow with its
// length. It fails when the width is out of range, when a chosen layer does not
// exist, or when the template does.
func Write(w io.Writer, p *score.Piece, opt Options) error {
	if opt.Width < Narrowest || opt.Width > Widest {
		return fmt.Errorf("a chart of %d columns cannot be set; choose %d to %d", opt.Width, Narrowest, Widest)
	}
	chosen, err := choose(p, opt.Layers)
	if err != nil {
		return err
	}
	for i := range min(len(opt.Order), len(chosen)) {
		chosen[i] = ordered(chosen[i], opt.Order[i])
	}
	return writePiece(w, p, opt, chosen)
}
