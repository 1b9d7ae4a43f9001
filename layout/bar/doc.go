// Package bar writes one bar: notes and rests of a value each, ties, tuplets,
// beams and accidentals, from what sounds in it. It knows nothing of the bars
// around.
//
//   - The passes over one bar are in bar.Writer.Write: pieces → containers (tiling.go, a
//     shortest path over tilings: fewest ties at edges, then signs, halved containers,
//     tuplets, joined ones) → signs (spell.go, tupletcuts.go) → heads → beams → quiet
//     voices → accidentals.
//   - Levels of a place (metricgrid.go): 0 the bar's ends; 1 the middle of 2, 4, 8 beats or
//     of an even number of dotted beats, and group starts of additive bars; 2 another
//     beat; 3 half a simple beat or a pulse; one more for each halving. A sign may hide
//     a place only if both its ends are at most one level weaker (lenient), or none
//     (strict; beats of compound and additive bars).
//   - Beams by group: runs of flagged notes of one group; groups of a single attack are
//     joined by the beat (by two quarters in 2/4 and 4/4 while only plain eighths stand
//     there, by the tuplet inside one). Inner levels break where a group begins and at
//     pulses longer than the level's note; between groups of one note only on the grid
//     of the next larger value, and never so that a short note is cut off from its like.
//     Plain bars of 5, 7, 11 … eighths have no groups; a beam by the meter takes twos
//     with a three at the end (common practice).
//
// Check sources: handbook rows on 6/8 and 9/8 from C. A. Harris, How to Write Music
// (1917), fig. 8; the beam example of the MusicXML 4.0 reference; ratios from two theory
// sheets ("Readable tuplets"); the rest common practice, from memory, as the tests say.
//
// Policy where handbooks differ: 3+3 in 3/4 is q. q. (lenient) or q~e e~q (strict); a
// whole 6/8 bar is one dotted half (the 1917 handbook ties two dotted quarters); no double
// dots unless asked; the strongest division decides how 5, 7, 9 are split, not one pattern
// for the layer.
package bar
