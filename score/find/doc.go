// Package find looks for the shortest description of a list of attacks: a
// cycle of groups that loops, is cut, grows, rotates, shifts, turns round, or
// takes on groups, with a pitch series of its own.
//
// The measure is description length in bits, after the minimum description
// length principle (Rissanen 1978, from memory): of all descriptions that
// rebuild the list exactly the one that takes the fewest bits to say is best,
// and a list whose best description is itself has no pattern.
//
// List (pulses) → lines (as sounds and silences; attack to attack if all strokes are
// short; accent to accent if every pulse is struck) → candidates → fits (every candidate
// is played by play.go on the engine of score/process, which does not know the list, and
// must give it back exactly) → pitch series → bits → rank. A candidate that fits only some
// cycles is offered again (offer in pairs.go), up to three processes: with one more that
// sets in where it fails (suggestMore), or starting over there (Reset). Several that set in
// at once are suggested by severalAtOnce (growth or an appended group with rotation and
// retrograde) and moved.go (growth with shift: each attack is tried as the head, with each
// growth that its place allows).
// Processes that start over are written until: realignment if arithmetic says the section
// realigns just then (reset.go), else as a list of the cycles, moved ones as boxes, since
// sounds ring over their edges. order.go finds pitches whose order turns from cycle to
// cycle (Series.Order), also in a loop taken several rounds at a time; the spec lists one
// series a cycle. Loops and processes with exceptions, and several segments, come from
// score/find/align (imperfect.go), also beside a plain loop that may be long only because
// two slips are alike (mayHideASlip); melodies whose cycles take on tones, with slips, are
// aligned by their pitches (melody_search.go, melody_align.go); stretch.go makes stretches
// of them, whose cycles go from one struck first group to the next, and every cycle that is not as the loop has it is written out, so that
// the spec sounds the list. Taps are read there too, one part (taps.go) or several on one
// clock (take.go: parts in, descriptions and a spec out). To add a pattern: its step in
// score/process, a suggestion in process.go, pairs.go, shift.go or moved.go, its playing in
// play.go, its bits in cost.go or align/process.go, its spec text in spec.go, its words in
// words.go, with exceptions a suggestion in align/growth.go, a hand-written row in
// search_test.go, a case in round_test.go's generator. Cost model: gamma(k) = 2·floor(log2 k)+1 (Elias 1975); kind 3 bits; values =
// gamma(number of sizes) + sum gamma(size) + gamma(n) + n·log2(sizes), one bit each where
// there are blanks; loop + gamma(attacks in all); cut, lead, tail + gamma; process 3 +
// gamma of each number (+1 for a sign); starting over + gamma(cycles); short or all
// strokes 2; exceptions and segments as align says; pitches the same with 7 bits a tone, 1
// bit for how they restart, their order as a process. Idea: minimum description length,
// Rissanen 1978 (from memory). Evidence: a loop two full statements, a process three cycles and two
// changes (both of two; twice over where they start over, and then never a single group),
// a cut of a single value four full statements (3+3+2 is a grouping, no cut), a cut
// of a single group never ranks before a loop of the same period; cuts, processes and
// exceptions must save more than 4 bits, and beside a plain loop 4 more than it. Growth
// measured: go test ./score/find -run xx -bench Search. score/find may not import score;
// its tests do, and the score engine is their outside judge. Held to: Messiaen's Liturgie
// de cristal, colors against taleae, Clapping Music's matrix, truncated loops
// (repertoire_test.go, sources there); 1,000 shuffled lists give no pattern; random layers
// (round_test.go) found again at no higher cost; random whole sections through MusicXML
// and back in the common, own and layer views and every spelling
// (cmd/tieover/round_trip_test.go); lists with slips, segments and pitches through the spec
// (noise_test.go); rates on 30 takes of each flaw (rates_test.go: TAKES=30).
package find
