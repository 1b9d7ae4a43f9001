package score_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// Exceptions are found in whatever order the spec has them: cycles of 2 eighths in
// bars of 4, of which cycles 2 and 5 and bar 4 rest.
func TestExceptionsInAnyOrder(t *testing.T) {
	var rests strings.Builder
	for _, e := range []string{"cycle: 5", "bar: 4", "cycle: 2"} {
		fmt.Fprintf(&rests, "{%s, rest: yes}, ", e)
	}
	s := read(t, "title: T\nmeter: 4/8\nlength: 5 bars\nlayers:\n  - {name: a, groups: \"2\", except: ["+strings.TrimSuffix(rests.String(), ", ")+"]}\n").Sections[0]
	var onsets []int
	for at := range s.Attacks(0) {
		onsets = append(onsets, int(at/s.Layers[0].Unit))
	}
	assert.Equal(t, []int{0, 4, 6, 10, 16, 18}, onsets)
}
