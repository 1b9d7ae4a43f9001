// Package staves divides what a player has on one instrument over its staves: which
// layer is written on which staff, in which voice, with which stems, and in what clef.
// It looks at all the pitches of the layers, and never at a bar.
package staves
