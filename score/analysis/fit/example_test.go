package fit_test

import (
	"fmt"

	"tieover/score/analysis/fit"
)

func ExampleTruncate() {
	cut := fit.Truncate([]int{3, 2, 2}, 32)
	fmt.Printf("%d cycles, then group %d cut to %d of %d\n", cut.Cycles, cut.Group, cut.Kept, cut.Of)
	// Output: 4 cycles, then group 2 cut to 1 of 2
}
