//go:build race

package musicxml

// raceEnabled: the race detector slows code down, but not copying.
const raceEnabled = true
