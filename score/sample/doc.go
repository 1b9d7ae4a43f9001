// Package sample makes random section specs, as YAML text, for property tests.
// Every spec it makes is valid: the reader accepts it and the score settles.
//
// YAML(t) draws a valid section with each feature on in 5 of 8 cases, Of(t, features) only
// those features, YAMLs(t) two to four sections. Draws are uniform: rapid's own ranges
// prefer small numbers, which would starve the ends of lists. Sections last either bars
// (places may be bars, pulses, cycles) or realignments of two plain layers (places may be
// realignments), so that every place is known to exist. TestMutated damages good specs and
// asks that each is read, or refused at a place, in time.
//
// Fuzzing: go test ./score/spec -run '^$' -fuzz '^FuzzRead$' -fuzztime 60s
// -fuzzminimizetime 1x (also FuzzGroups, FuzzBox, FuzzPitch, FuzzMeter, FuzzTempo).
package sample
