// Package engraving draws a written sheet in common notation as plain SVG. It
// decides nothing musical: what it shows is on the sheet, and what it adds is
// where that stands on paper.
//
// All lengths are integers, in hundredths of a staff space, with y downwards.
//
// Systems draws a sheet as systems of plain SVG (g path text, currentColor, no id, class,
// script or style inside), Pages and WriteHTML set them on paper, Figure and Picture give
// one alone. Integers only, in 1/100 space; drawn with ten units to a space. It decides
// nothing musical. The passes are files, in the order of line.place.
//
//   - Ideal gaps are shares of the widest sign that sounds; least distances come from
//     one frontier a staff; a line is stretched by a binary search.
//   - A text is given exactly the width that was reckoned, so no font makes it run into
//     a sign.
//   - Laws (invariants_test.go, on all testdata and random pieces): no two signs of a
//     staff meet; a moment has one place on all staves; stems reach their beams and are
//     2.5 spaces at least; everything is inside; a line ends at its width unless it is
//     the last; staves keep 0.9 space; the attacks read back from data-at and data-layer
//     are the score's.
//   - Speed: go test ./export/engraving -run '^$' -bench Draw compares a bar drawn with one
//     that the MusicXML writer does not remember (0.6 of its processor time; at most 3
//     times it is allowed). Ten megabytes of bars are remembered at most.
//   - How much fits a line is layout/sheet/room.go's, for layout and drawing alike.
//   - To add a sign: its name in signs.go, its shape in a shapes_* file. To add a mark:
//     a row in markRows and its method; an articulation: a row in articulations.
package engraving
