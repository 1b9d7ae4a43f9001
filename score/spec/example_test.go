package spec_test

import (
	"fmt"

	"tieover/score/spec"
)

func ExampleRead() {
	text := `title: Lock Keeper's Round
tempo: 0
layers:
  - name: Marimba
    instrument: marimbla
    groups: 3++2
`
	_, problems := spec.Read([]spec.File{{Name: "round.yaml", Text: []byte(text)}})
	for _, p := range problems {
		fmt.Println(p)
	}
	// Output:
	// round.yaml:2:8: the tempo is too slow; choose from 4 to 2000 quarters a minute
	// round.yaml:5:17: unknown instrument "marimbla"; did you mean marimba? `tieover instruments` lists them
	// round.yaml:6:15: a group is missing before "+"; write a size there, or remove the +
}
