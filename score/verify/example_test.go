package verify_test

import (
	"fmt"

	"tieover/score/beat"
	"tieover/score/heard"
	"tieover/score/spec"
	"tieover/score/verify"
)

// What is written is compared with what the spec means: here the last of two
// strokes comes an eighth early.
func ExampleCompare() {
	piece, problems := spec.Read([]spec.File{{Name: "lock.yaml", Text: []byte(`
title: Lock
meter: 4/4
length: 1 bar
layers:
  - {name: Winch, groups: 3+5}
`)}})
	if len(problems) > 0 {
		panic(problems)
	}
	part := &heard.Part{Name: "Winch"}
	part.Bars = []heard.Bar{{Number: "1", Pass: 1, Length: beat.Of(1, 1), Meter: "4/4",
		Beats: []beat.Span{beat.Of(1, 4), beat.Of(1, 4), beat.Of(1, 4), beat.Of(1, 4)}}}
	for _, at := range []beat.Span{beat.Of(0, 1), beat.Of(1, 4)} {
		part.Attacks = append(part.Attacks, heard.Attack{Onset: at, Length: beat.Of(1, 4), Tones: make([]heard.Tone, 1)})
	}
	result, err := verify.Compare(piece, &heard.Score{Parts: []*heard.Part{part}}, verify.Options{})
	if err != nil {
		panic(err)
	}
	for _, d := range result.Differences {
		fmt.Println(d)
	}
	// Output:
	// bar 1 beat 2: Winch has tap 1/8 early for 1/4, spec says bar 1 beat 2½ for 5/8
}
