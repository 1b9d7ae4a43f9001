package score_test

import (
	"fmt"

	"tieover/score/spec"
)

// A settled section yields its cycles, attacks and signposts in time order,
// never a list of them all.
func ExampleSection_Signposts() {
	piece, problems := spec.Read([]spec.File{{Name: "lock.yaml", Text: []byte(`
title: Osier Beds
meter: 4/4
length: 8 bars
layers:
  - {name: Winch, groups: 3+2}
  - {name: Barge, groups: 3+3}
`)}})
	if len(problems) > 0 {
		panic(problems)
	}
	s := piece.Sections[0]
	for post := range s.Signposts() {
		fmt.Println(post.Text, "after", s.Grid.Span(post.At), "whole notes")
	}
	attacks := 0
	for range s.Attacks(0) {
		attacks++
	}
	fmt.Println(attacks, "attacks of Winch")
	// Output:
	// A1 after 15/4 whole notes
	// A2 after 15/2 whole notes
	// 26 attacks of Winch
}
