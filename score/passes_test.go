package score_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tieover/score"
	"tieover/score/sample"
)

// Passes are the cycles without what they play.
func TestPassesAreBareCycles(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := sample.YAML(t)
		s := read(t, text).Sections[0]
		for i, l := range s.Layers {
			var bare []score.Cycle
			for c := range s.Cycles(i) {
				if !c.Landing && l.Line == nil {
					b := *c
					b.Groups, b.Attacks, b.Changed = nil, nil, false
					bare = append(bare, b)
				}
			}
			var passes []score.Cycle
			for c := range s.Passes(i) {
				passes = append(passes, *c)
			}
			require.Equal(t, bare, passes, "layer %d\n%s", i, text)
		}
	})
}
