package timeline_test

import (
	"fmt"

	"tieover/score/analysis/grouping"
	"tieover/score/analysis/timeline"
)

func ExampleMatches() {
	for _, m := range timeline.Matches(grouping.Of(2, 3, 3)) {
		fmt.Println(m.Pattern.Name, "begins", m.Turn, "pulses from here")
	}
	// Output: tresillo begins 2 pulses from here
}
