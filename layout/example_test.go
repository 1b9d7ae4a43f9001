package layout_test

import (
	"fmt"

	"tieover/layout"
	"tieover/score/spec"
)

// A sheet's bars are made when they are asked for, and are good until the next.
func ExampleLay() {
	piece, problems := spec.Read([]spec.File{{Name: "lock.yaml", Text: []byte(`
title: Lock
meter: 4/4
length: 2 bars
layers:
  - {name: Winch, groups: 3+3+2}
`)}})
	if len(problems) > 0 {
		panic(problems)
	}
	sheet, problems := layout.Lay(piece, layout.Options{})
	if len(problems) > 0 {
		panic(problems)
	}
	for bar := range sheet.Parts[0].Bars() {
		fmt.Println("bar", bar.Number, "has", len(bar.Measure.Voices[0].Events), "events")
	}
	// Output:
	// bar 1 has 3 events
	// bar 2 has 3 events
}
