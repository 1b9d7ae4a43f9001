// Package engraving draws a written sheet in common notation as plain SVG. It
// decides nothing musical: what it shows is on the sheet, and what it adds is
// where that stands on paper.
//
// Systems draws a sheet as systems, WriteHTML sets them on pages, Figure and
// Picture give one alone. All lengths are integers, in hundredths of a staff space, with
// y downwards.
//
// A line is made from the inside out: content reads its bars, spacing gives them their
// places from left to right, then the passes of line.place, each in a file of its own,
// put signs on the canvas and last its marks, each clear of what is there already.
//
//   - A text is given exactly the width that was reckoned, so no font makes it run into
//     a sign.
//   - Laws (invariants_test.go, on all testdata and random pieces): no two signs of a
//     staff meet; a moment has one place on all staves; stems reach their beams and are
//     2.5 spaces at least; everything is inside; a line ends at its width unless it is
//     the last; staves keep 0.9 space; the attacks read back from data-at and data-layer
//     are the score's.
//   - Speed: go test ./export/engraving -run '^$' -bench Draw compares a bar drawn with one
//     that the MusicXML writer does not remember (0.6 of its processor time; at most 3
//     times it is allowed).
//   - To add an articulation: a row in articulations.
package engraving
