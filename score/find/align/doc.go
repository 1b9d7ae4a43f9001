// Package align looks for the loops in a row of attacks that people typed,
// tapped or played: with slips, scatter, drift, pauses and several segments. Pulse,
// places, loops, exceptions and segments are one description, and of all descriptions
// the one of the fewest bits is the best (minimum description length, Rissanen 1978, from
// memory).
//
// Milliseconds of taps are floats here, and so are bits; places in pulses are
// whole numbers.
//
// Pulses to try (pulse.go) → a free reading of the taps on each, without a loop: the
// cheapest of a few survivors, each with a Kalman filter of place and pulse (free.go,
// tracker.go) → loops that may be heard in it (loops.go), and where none says all,
// processes (growth.go), which score/process plays as one long word (process.go) →
// alignment, the cheapest
// path over attacks and places in the loops, whose moves are the exceptions, and at
// any attack another loop or a free stretch (align.go, moves.go) → the path read back
// (reading.go) → scatter estimated again, loops changed a little (improve.go) → rank,
// against the best free reading on any pulse (read.go). Numbers have one pulse and no
// timing. Several parts are read in the time of all of them (parts.go).
//
// Bits: a segment 3, its loop gamma of the sizes, of their number and of the groups'
// number, and log2 of the sizes a group; from the second segment on log2 of the
// attacks; a free stretch its sizes and log2 of them an attack; k exceptions log2 of
// the ways to place them and gamma(k+1), and each: missing or too many 2 + gamma, too
// many also the inner pulse; longer or shorter 2 + gamma + 1; again, left out, swapped
// 4; a pause 4 + log2 of its milliseconds + 3. The pulse log2 of those tried + 1; swing
// 3 with the tempo given, else 8; a tracker that drifts 1; groups with a common divisor
// 8. A process its first cycle as a loop, its kind 3, and gamma of each number, 1 for a
// sign; it must go on until two of its changes are heard. A tap's moment, to the
// millisecond, as one in its place or, 1 in 100, a stray one. The last length is never coded.
// Worked examples: example_test.go. Rates: score/find/rates_test.go.
//
// To add an exception: a Move, its transitions in moves.go, its bits and the groups it
// takes in segment.go, its words in score/find/exception.go, a row in flaws of
// score/find/takes_test.go.
package align
