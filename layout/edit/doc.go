// Package edit makes sheets of sheets: excerpts, exact repetitions folded, two
// writings of the same music one above the other.
//
//   - A fold compares, besides bars and marks, what is in force as each pass begins
//     (tempo, dynamics, open hairpins): a repeat goes back to the first pass's signs.
package edit
