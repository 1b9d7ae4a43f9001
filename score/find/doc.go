// Package find looks for the shortest description of a list of attacks: a cycle of
// groups that loops, is cut, grows, rotates, shifts, turns round or takes on groups, with
// a pitch series of its own.
//
// # Bits
//
// A description is as good as it is short (minimum description length, Rissanen 1978,
// from memory): of all descriptions that give the list back exactly, the one that takes
// the fewest bits to write down is the best. What a description saves is counted against
// the bare list; a list whose best description is itself has no pattern. bits.go and
// pitch.go count, in gamma(k) = 2·floor(log2 k)+1 bits a number (Elias 1975):
//
//   - 3 for the kind of description; gamma of the number of values in the list, of the pulses of a
//     cut, of a silence before the first cycle, and of what is left of the last group;
//   - a row of values: gamma of how many sizes it has and of each, gamma of how many values,
//     log2 of the sizes for each value, and a bit each where there are silences;
//   - a process: 3, and gamma of each of its numbers, 1 for a sign; starting over: gamma of the
//     cycles; short strokes, or all pulses struck: 2;
//   - a series: as a row of values in which a tone takes 7, 1 for whether it starts over, and
//     its order as a process; gamma of how many cycles have other pitches, and of each cycle's
//     number and how many it has;
//   - exceptions and segments as score/find/align counts them.
//
// # How the search goes
//
// Search (search.go) collects descriptions in this order and then ranks them.
//
//  1. The list becomes lines (line.go): its sounds and silences; from attack to attack, if
//     all strokes are short; from accent to accent, if every pulse is struck; each with
//     and without the silence before the first attack.
//  2. Each line tries candidates that fit it exactly. The shortest plain loop goes first
//     (loops), for it is soon found and bounds what longer cycles can still be worth
//     looking for. Then a cycle that is cut (cuts). Then a cycle that changes, found by how
//     the first cycle that differs does so: compared group by group (processes), and, for
//     every length, moment by moment (equalLengths), since a cycle that moves inside its
//     length has other groups. Last, where both change at once, each attack is tried as the
//     first of the cycle (shiftAndGrowth).
//  3. Every candidate is played (play.go) on the engine of score/process, which does not know
//     the list, and is kept only if it gives the list back. One that fits some cycles only is
//     offered again (offer), with one process more that sets in where it fails, up to three,
//     or starting over there.
//  4. What fits gets the cheapest series for its pitches (pitch.go): one that starts over
//     with each cycle, perhaps in an order that changes (order.go), one that runs on by its
//     own length, or the pitches as they are; in a plain loop also one that some cycles do
//     not have (exception.go). Melodies in equal values whose cycles only their
//     pitches tell are looked for by themselves (additive.go).
//  5. Loops and processes with exceptions, and several loops one after the other, come from
//     score/find/align (imperfect.go, stretch.go), unless a plain loop says all. Beside one they
//     are tried only if it may be long because two slips are alike (mayHideSlips). Melodies
//     with slips are aligned by their pitches (melody_search.go, melody_align.go).
//  6. The shortest goes first; among equally short ones the plainest. A cut that nobody hears
//     as one goes behind its loop (loopsFirst). The bare list is always the last.
//
// # Evidence
//
// Chance makes short descriptions too. So a loop is heard twice in full; a process for three
// cycles and two of its changes, twice over where it starts over; the cut of a single value
// four times in full (3+3+2 is a grouping, and no cut); a melody for four cycles. A plain
// loop may save any number of bits, also with one exception; all else must save more than
// 4, and what has exceptions 4 more than the plain loop beside it.
//
// # Files
//
// list.go makes a List of durations or attacks, taps.go and take.go of taps and of what was
// played, one part or several on one clock. description.go and stretch.go have what is found,
// words.go and exception.go say it. line.go sees a list as lines and judges what fits; grouped.go,
// timed.go, shift_growth.go and several.go suggest candidates, growth.go and sequence.go
// compare two cycles for them. play.go plays, bits.go and pitch.go count. imperfect.go asks
// align; stretch.go and edge.go make stretches of what it reads. The spec that sounds a
// description is written by score/found.
//
// To add a pattern: its step in score/process; a suggestion in grouped.go, several.go, timed.go
// or shift_growth.go; its bits in align.ProcessBits; its words in words.go; its text in score/found;
// with exceptions, a suggestion in align/growth.go; a row written by hand in search_test.go, and a
// case of the generator in round_test.go.
//
// # What it is held to
//
// The package may not import score; its tests do, and the score engine is their judge: specs
// that are written for what was found must sound the list (round_test.go, noise_test.go,
// several_test.go). Works and patterns with their sources are in repertoire_test.go; of 1,000
// shuffled lists none has a pattern; how often slips and scatter are seen through is in
// rates_test.go. How the time grows: go test ./score/find -run xx -bench Search.
package find
