package report_test

import (
	"os"

	"tieover/export/report"
	"tieover/score/spec"
)

func ExampleBrief() {
	piece, problems := spec.Read([]spec.File{{Name: "lock.yaml", Text: []byte(`
title: Lock
meter: 4/4
length: 2 bars
layers:
  - {name: Winch, groups: 3+5}
`)}})
	if len(problems) > 0 {
		panic(problems)
	}
	if err := report.Brief(os.Stdout, piece, report.Options{}); err != nil {
		panic(err)
	}
	// Output:
	// Lock is 2 bars of 4/4 and lasts 0:04.0 (quarter = 120). Winch loops 3+5 (8
	// eighths). Winch begins on a barline every 8 eighths = 1 bar, after 1 round.
	// Winch keeps its place in the bar. There are 4 attacks, 2 in every bar. Winch may
	// be heard as 5+3 (long groups first), begun 3 eighths (a dotted quarter) later;
	// every realignment then falls where its group 2 begins. The end is clean: it is
	// on a barline, and no loop that runs on is cut.
}
