package grouping_test

import (
	"fmt"

	"tieover/score/analysis/grouping"
	"tieover/score/beat"
)

func ExampleEuclid() {
	e := grouping.Euclid(5, 8)
	fmt.Println(e.Box(), beat.Sum(e.Gaps()))
	// Output: x.xx.xx. 2+1+2+1+2
}

func ExampleResultant() {
	fmt.Println(beat.Sum(grouping.Resultant(4, 3)))
	// Output: 3+1+2+2+1+3
}
