// Package analysis computes what can be known about a section by counting:
// drift, realignments, the composite, what each grouping is and may be heard
// as, how the section could be barred. It decides nothing and changes nothing.
//
// What grows with the section's length is walked, never held; Facts holds what
// does not.
//
// Laws:
//
//   - Time is ticks or beat.Span; meetings are *big.Int. Floats only in the indices
//     evenness, balance, DFT and spectrum, sum of chords, nPVI.
//   - Facts holds nothing that grows with the section. Long things are iterators; the
//     JSON is written while it is walked (782 MB for 100,000 bars and 8 layers in 21 MiB
//     of memory).
//   - What needs only where cycles stand walks Section.Passes, which makes no attacks; a
//     head is placed in cycles that never change by arithmetic (reference.go), and a
//     moment in its bar by a Placer. At the limits (64 layers of 4,096 groups, 1,000,000
//     bars, 5 million attacks) the text takes 3 s of one core, the JSON of 671 MB 8 s.
//   - A drift's place is measured from the start of the bar or cycle that the head falls
//     in; a step lies in (-L/2, L/2]. A drift is called constant after 2,048 equal steps
//     at most (all says whether that was the whole section).
//   - Meetings are arithmetic where heads repeat; a layer that is cut (loop:) is stepped
//     through, because a cut starts it over.
//   - Barrings are ranked by (ties over barlines, groups cut, changes of meter, bars);
//     counted over the section, or over as much of it as holds 20,000 attacks.
//
// Definitions, where published ones differ:
//
//   - Euclid: repeated grouping as in Toussaint's list of 2005 (pairs once even when a
//     single rest is left: x.xx, not xxx.); "Euclidean" means any rotation of it, the
//     same as maximally even.
//   - LHL: a silence (or held note) is compared with the nearest note before it; nothing
//     is carried round the cycle; 0 is none. Defined where the cycle is 2^k bars and the
//     meter divides by twos and threes. WNBD: weight 1 when a note ends exactly on the
//     second next beat; defined where the cycle is a whole number of equal beats. nPVI:
//     not wrapped.
//   - Resultants: union of the attack points over the least common period (not the
//     product).
//   - Counting of closings: inclusive (p, g) is exclusive (p-1, g+1).
//
// To add a named pattern: one line in timeline/table.go, with its source. To add an index:
// a method in grouping, a row in its testdata, a field in analysis.Grouping, a line in
// export/report/grouping.go and export/report/facts/grouping.go, an entry in the glossary and in the
// keys of cmd/tieover/help/json.md (a test compares them with what is written).
//
// Checks. testdata/*.tsv beside the packages hold published values; each row names its
// source, "from memory" where the text was not seen, "second computation" where
// another program computed it. .ci/theory/run.sh TIEOVER compares Euclidean necklaces,
// bars, beats and note values with a music theory library from npm.
package analysis
