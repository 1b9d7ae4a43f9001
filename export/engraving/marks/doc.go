// Package marks draws what stands at a moment rather than at a note: words, tempi,
// dynamics, chords, the numbers and brackets of cycles, and lyrics. To add a mark: a row in
// markRows and its method.
package marks
