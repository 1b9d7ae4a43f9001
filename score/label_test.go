package score_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tieover/score"
	"tieover/score/sample"
)

// The kth realignment found by arithmetic is the kth that is walked to.
func TestNthRealignment(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := sample.YAML(t)
		s := read(t, text).Sections[0]
		for r := range s.RealignmentTimes() {
			if r.Index > 0 {
				require.Equal(t, r.Time, s.NthRealignment(r.Index), "realignment %d\n%s", r.Index, text)
			}
		}
	})
}

// Marks of the plan are found wherever it lists them, and among others of the
// same moment. 5 against 4 meet every 20 eighths: at bars 6, 11, 16 … of 4/8.
func TestLabelsWithALongPlan(t *testing.T) {
	var plan strings.Builder
	for bar := 400; bar > 1; bar-- {
		fmt.Fprintf(&plan, "  - {at: bar %d, text: t}\n", bar)
		if bar == 11 || bar == 12 {
			fmt.Fprintf(&plan, "  - {at: bar %d, mark: M%[1]d}\n", bar)
		}
	}
	s := read(t, "title: Locks\nsection: B\nmeter: 4/8\nlength: 400 bars\nlayers:\n  - {name: a, groups: 3+2}\n  - {name: b, groups: 2+2}\nplan:\n"+plan.String()).Sections[0]
	var labels []string
	for r := range s.RealignmentTimes() {
		if r.Index < 5 {
			labels = append(labels, r.Label)
		}
	}
	assert.Equal(t, []string{"", "B1", "M11", "B3", "B4"}, labels)
}

// After the single letters come those of two: z is followed by aa,
// az by ba.
func TestLayerLetters(t *testing.T) {
	for i, want := range map[int]string{0: "a", 25: "z", 26: "aa", 27: "ab", 51: "az", 52: "ba", 63: "bl"} {
		assert.Equal(t, want, score.LayerLetter(i))
	}
}
