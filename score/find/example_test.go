package find_test

import (
	"fmt"

	"tieover/score/beat"
	"tieover/score/find"
)

// 3+2+2 six times: in bits, what its cycle costs, against eighteen values one by
// one.
func ExampleSearch() {
	var items []find.Item
	for range 6 {
		items = append(items, find.Item{Size: 3}, find.Item{Size: 2}, find.Item{Size: 2})
	}
	list, err := find.FromDurations(items, beat.Plain(beat.Of(1, 8)))
	if err != nil {
		panic(err)
	}
	for _, d := range find.Search(list, find.Options{}) {
		fmt.Printf("%v: %.0f bits\n", d, d.Bits())
	}
	// Output:
	// 3+2+2 (7 pulses), 6 times: 27 bits
	// no pattern: 18 values as they stand: 39 bits
}
