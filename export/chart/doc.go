// Package chart writes the rhythm chart: plain text in which every layer is a
// row that can be counted aloud.
//
//   - A loose scale takes the width in which the rows limp least (looseScale).
//     Right-to-left text is isolated (bidi.go).
//   - Laws of a chart: no text over text (line.put panics), no trailing blank, no line
//     wider than the width (width_test.go; a word that is longer is broken, but no
//     number). A second reader (reader_test.go, no shared code) reads strokes, touches,
//     labels and composite back: on 500 drawn sections at 40, 80 and 200 columns, with
//     and without --ascii, and on the demo sections against lists written by hand.
//     testdata/round.txt was written by hand before the program.
//   - Memory: TestMemoryDoesNotGrowWithTheLength (2,000 bars × 32 layers, ten times 200
//     bars: the same heap). Two walks: one (Summary) for a legend that explains only
//     what appears, one for the rows.
package chart
