// Package rows computes the rows of a rhythm chart from a section: for every
// bar and layer what is struck and what still sounds at each pulse, where
// cycles start and how late, the composite and the spoken count. It knows
// times, not columns: how wide a pulse is drawn is the typesetter's matter.
//
// Bars are made while they are walked; nothing here grows with the section.
//
//   - layout/rows answers what stands at each moment (score → cells, cycle starts,
//     lateness, composite, count, labels), in ticks and bar by bar; it holds one bar.
//     export/chart answers only in which column. A new sign is a rows.Sign, drawn in
//     chart.signs, explained in chart/legend.go, read by chart/reader_test.go. What
//     stands over or under a row is a stack of lines (chart/stack.go): touches, pitch
//     names.
//   - Ways of counting are rows.Family: plain, and one for each tuplet. A family is
//     named by as little as tells it from the others (3s, 1/8 3s, 1/16 5:4), and its
//     triplets are said with the words of the plain count.
//   - Laws of a chart: every pulse of a cycle is a cell; cells of a row rise strictly;
//     all cells, beats and barlines are multiples of Step; a cell between two pulses is
//     an attack or the end of a sound; X is the head (score.Cycle), so that at a
//     realignment every layer of the set that is not silent shows X; a sound cut by the
//     section's end is not held over its last barline.
//   - Lateness: with bars of one length the steps in (−L/2, L/2] are added up and shown
//     modulo L with the direction kept (late 2, 4, 6, 8 of 10, as in the published drift
//     tables), 0 after a way round is on 1; with unequal bars it is the place in the
//     bar.
//   - A sound is counted on over its cycle's edge; tuplets are counted on the pulses of
//     their layers, so the count goes on over a barline; Whole makes printed groups add
//     up to the cycle. spoken_test.go counts the rows of drawn charts aloud (a third
//     reader: 2 after a strike, n+1 after n, nothing from silence).
package rows
