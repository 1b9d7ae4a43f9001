// Package pen is what drawings are made of: lengths, paths, the shapes of music signs
// and texts, written as plain SVG (g path text, no id, class, script or style) in tenths
// of a staff space.
//
// To add a sign: its name in signs.go, its shape in a shapes_* file, how wide it is in
// measures.go.
package pen
