// Package midi writes a piece as a Standard MIDI File of type 1: a conductor
// track and one track a layer. What sounds comes from layout/play; here it is
// only spelled in bytes.
//
// export/midi writes with gomidi (the only importer). What we check ourselves because the
// library does not: division at most 32,767 (it clamps in silence), deltas at most
// 0FFFFFFF (it writes five bytes; we bridge with empty texts), every track closed, tempo
// bytes computed from the exact rational. Fits says beforehand, as Unfit, what a file
// cannot hold. Sources: Standard MIDI Files 1.0 (RP-001) for tempo, meter and
// variable-length bytes and the worked example; General MIDI for programs and drum keys.
// The metronome byte of a time signature is a choice: the dotted quarter in 6, 9, 12 over
// 8, else the unit; --click follows the musical beats. Memory grows with the piece
// (2,000,000 attacks: 5.5 s of processor time, 378 MiB, a file of 20 MB), which is why
// there is a limit. CI: .ci/midi/run.sh TIEOVER reads files back with npm midi-file and
// compares them with cases/*.json, written by hand, and with report.json of every demo
// section.
package midi
