package grouping_test

import (
	"fmt"

	"tieover/score/analysis/grouping"
)

func ExampleEuclid() {
	e := grouping.Euclid(5, 8)
	fmt.Println(e.Box(), grouping.Join(e.Gaps()))
	// Output: x.xx.xx. 2+1+2+1+2
}

func ExampleResultant() {
	fmt.Println(grouping.Join(grouping.Resultant(4, 3)))
	// Output: 3+1+2+2+1+3
}
