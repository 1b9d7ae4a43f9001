// Package score holds a piece as its composer thinks of it: sections in which
// layers repeat cycles against one another, and the moments at which they
// realign. It knows the meter as a grid of times; it knows nothing of written
// bars, noteheads or file formats.
//
// Times inside a Section count from the section's bar 1, in ticks of the
// piece's grid; those of a pickup are negative. What can be long (cycles, bars, realignments) is generated
// while it is walked and never held as a whole.
//
// Piece.Settle computes everything a spec leaves open, in the order of settler.run; after
// it a section never changes and may be read by several goroutines.
//
//   - A pickup is the time from Opening to 0, as bar 0 the end of a bar. Only lines, and loops
//     that enter in it, sound there; meter, length, cuts and realignments know nothing of it.
//   - Cycles tile a layer's time from its entry: each begins where the one before ended,
//     or at the cut that ended it. Their groups tile [0, Length).
//   - A process acts in the order of the list at each cycle from the second on. Grow and
//     append change sizes and stay; rotate and shift move the head and stay; retrograde
//     turns only the cycle it falls on (rotation first, then retrograde, then shift). A
//     rotation counts groups from the one the last cycle began with, so that none is
//     passed over when a donor is used up.
//   - The head is the onset of group 1 of the spec, in a retrograde cycle of the group that
//     goes before it: backwards the figure begins with its end. A realignment is a moment at which
//     the heads of the whole set coincide. Realignment 0 is the start, if they coincide
//     there.
//   - When the heads of all layers of a set repeat with a fixed period, coincidences are
//     found by arithmetic: each layer is a set of residues modulo its period, and sets
//     are intersected by the Chinese remainder theorem in big integers (meet.go). When
//     cycle lengths change, or a reset moves heads, the cycles are walked as they are
//     played (together.go), and Meeting.Walked says so.
//   - An attack lasts as long as its group, figure or box says, at most to the layer's
//     next attack; it may ring over its cycle's edge. A cut, a leaving or the section's
//     end stops it.
//   - A series with restart: cycle is dealt to the cycle in spec order, so tones travel
//     with their attacks through rotation, shift and retrograde; otherwise in sounding
//     order. What does not sound takes no tone.
//   - The default realigning set is every layer that loops from start to end, cut or not,
//     but for those that realignments start over. A set of one realigns with the barline.
//   - A realignment is forced where a layer of the set is cut inside a cycle, else
//     natural; one count for both. What coincides strictly inside the last bar before a
//     barline at which a layer of the set is to be cut does not count (AlsoTogether).
//     Plain cuts repeat and are arithmetic (cut.go); others are walked.
//   - A realignment has a label if it comes more than a bar after the last of its kind
//     and the section does not just stop there (marked.go); double bars: divider.
//
// # The score is worked out twice
//
// score/oracle_test.go (cycles, realignments, resets, cuts) and score/naive_test.go
// (attacks, pitches, accents, exceptions) are a second, naive score: plain lists, one
// pulse at a time, no cache, no congruences, no code shared with the first.
// TestAgainstTheNaiveScore compares both on random specs, TestTwoLoopsMeetAsTheyArePlayed
// meetings of other sets; TestLaws holds cycles, groups and counts to their laws. A new
// rule goes into both, from the rule's words, and into score/sample so that random specs
// use it. Once, longer: go test ./score -run TestAgainstTheNaiveScore
// -rapid.checks=100000.
//
// Rules settled case by case (rows_test.go, entry_test.go, turns_test.go)::
//
//   - accent: group accents what is struck exactly where a group begins as it is played:
//     after retrograde or shift too, never at the tail of a group that a shift laid over
//     the cycle's edge.
//   - Nothing rings past a moment at which the layer starts over, nor into a silent
//     cycle, also where no cycle is shortened there.
//   - A cut at the moment of entry is none: a negative offset begins inside cycle 1
//     there as anywhere.
//   - enters: cycle 3 is where the third of the loop's cycles begins, its offset
//     included; the offset is not added a second time.
//   - A list of series under restart: realignment begins anew at realignments only,
//     marked or not; cuts do not count.
//   - A bar whose exception has only pitches keeps its rhythm. An exception that changes
//     nothing is a warning.
//   - A retrograde cycle has other groups to read and is Changed.
//   - Attacks are bounded by arithmetic first; only where the bound straddles 50,000,000
//     are they counted, and counting leaps over what no longer changes.
package score
