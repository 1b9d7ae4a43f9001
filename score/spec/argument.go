package spec

import (
	"tieover/score"
	"tieover/score/beat"
	"tieover/score/source"
	"tieover/score/spec/grammar"
)

// The functions below read one value as a spec would, from the command line.
// What is wrong is a problem whose file is what the value is called there and
// whose column points into the text.

// ParseGroups reads groups: "3+2+2", "(3+2)x3", "rest 2".
func ParseGroups(called, text string) ([]score.Item, source.Problems) {
	items, bad := grammar.Groups(text)
	return items, argument(called, text, bad)
}

// ParseMeter reads one time signature: "5/4", "3+2+2/8".
func ParseMeter(called, text string) (score.Signature, source.Problems) {
	sig, bad := grammar.Signature(text)
	return sig, argument(called, text, bad)
}

// ParsePulse reads a note value: "1/8", "1/8 in 3:2", "dotted eighth".
func ParsePulse(called, text string) (beat.Pulse, source.Problems) {
	p, bad := grammar.Pulse(text)
	return p, argument(called, text, bad)
}

func argument(called, text string, bad *grammar.Slip) source.Problems {
	if bad == nil {
		return nil
	}
	at := source.Pos{File: called, Column: len([]rune(text[:min(bad.At, len(text))])) + 1}
	return source.Problems{{Pos: at, Text: bad.Text, Hint: bad.Hint, Line: text}}
}
