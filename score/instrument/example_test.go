package instrument_test

import (
	"fmt"

	"tieover/score/instrument"
)

func ExampleFind() {
	i, ok := instrument.Find("bass clarinet")
	fmt.Println(i.Short, i.Diatonic, i.Chromatic, i.Octave, ok)
	_, ok = instrument.Find("bass clarinett")
	fmt.Println(ok, instrument.Like("bass clarinett"))
	// Output:
	// B. Cl. -1 -2 -1 true
	// false [bass clarinet]
}
