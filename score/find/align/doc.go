// Package align looks for the loops in a row of attacks that people typed,
// tapped or played: with slips, scatter, drift, pauses and several segments. Pulse,
// places, loops, exceptions and segments are one description, and of all descriptions
// the one of the fewest bits is the best (minimum description length, Rissanen 1978, from
// memory).
//
// Milliseconds of taps are floats here, and so are bits; places in pulses are
// whole numbers.
//
// # How the search goes
//
//  1. Pulses to try are chosen (pulse.go): the parts of a quarter if the tempo is known, else
//     what most distances are multiples of. Numbers have one pulse and no timing: they begin
//     with step 3.
//  2. The taps are counted on each pulse without a loop (free.go): a few ways to count go on,
//     each with a Kalman filter of place and pulse (tracker.go), and the cheapest is the pulse's
//     free reading.
//  3. Loops that may be heard in its distances are collected (loops.go), and where none says
//     all, processes (growth.go), which score/process plays as one long row (process.go).
//  4. They are aligned with the attacks: the cheapest path over attacks and places in the
//     loops, where each move is a group or an exception, and at any attack another loop or a
//     free stretch may begin (align.go, moves.go). The path becomes a Reading, which hears the
//     taps again and counts exactly (reading.go, segment.go, hear.go).
//  5. The shortest readings are tried with another scatter, drift and swing, and their loops are
//     changed a little (improve.go).
//  6. They are ranked by what they save against the best free reading on any pulse: Numbers
//     (read.go), Taps (taps.go), or Parts, in which several parts share one time (parts.go).
//
// # Bits
//
// Gamma, WhereBits and the constants are in bits.go.
//
//   - a segment: 3, and from the second on log2 of the attacks; its loop: gamma of each size, of
//     how many there are and of the number of groups, and log2 of the sizes a group; a free
//     stretch: its sizes, and log2 of them an attack;
//   - a process: its first cycle as a loop, 3 for its kind, gamma of each number, 1 for a sign; it
//     must go on until two of its changes are heard;
//   - k exceptions: log2 of the ways to place them and gamma(k+1), and each: missing or too many
//     2 + gamma, too many also the inner pulse; longer or shorter 2 + gamma + 1; again, left out,
//     swapped 4; a pause 4 + log2 of its milliseconds + 3;
//   - a pulse: log2 of those tried + 1; swing 3 with the tempo given, else 8; a tracker that
//     follows a drift more quickly 1; groups with a common divisor 8;
//   - a tap: its moment to the millisecond, as one in its place or, 1 in 100, a stray one. The
//     length of the last attack is not known and costs nothing.
//
// Worked examples are in example_test.go, rates of success in score/find/rates_test.go.
//
// To add an exception: a Move, its transitions in moves.go, its bits and the groups it
// takes in segment.go, its words in score/find/exception.go, a row in flaws of
// score/find/takes_test.go.
package align
