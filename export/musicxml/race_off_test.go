//go:build !race

package musicxml

const raceEnabled = false
