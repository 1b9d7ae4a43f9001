package timeline_test

import (
	"fmt"

	"tieover/score/analysis/grouping"
	"tieover/score/analysis/timeline"
)

func ExampleMatches() {
	for _, m := range timeline.Matches(grouping.Of(3, 2, 3)) {
		fmt.Println(m.Pattern.Name, "begins", m.Turn, "pulses from here")
	}
	// Output: tresillo begins -3 pulses from here
}
