package rows

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"tieover/score"
	"tieover/score/sample"
	"tieover/score/spec/spectest"
)

// What a summary counts by arithmetic is what a walk over all bars and all cycles
// counts one by one.
func TestSummaryCountsAsAWalkDoes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := sample.YAML(t)
		p := spectest.Read(t, text)
		for _, s := range p.Sections {
			ch := Of(s, nil)
			got := ch.Summary(1, 1)
			attacks := make([]int64, len(ch.Layers))
			for b := range ch.Bars() {
				for i, row := range b.Rows {
					for _, c := range row.Cells {
						if c.Sign.Struck() {
							attacks[i]++
						}
					}
				}
			}
			assert.Equal(t, attacks, got.Attacks)
			for i := range s.Layers {
				assert.Equal(t, oneByOne(s, i), zeroHighest(got.Layers[i]), "%s of\n%s", s.Layers[i].Name, text)
			}
		}
	})
}

func zeroHighest(l LayerSummary) LayerSummary {
	l.Highest = 0
	return l
}

// oneByOne counts the cycles of a layer.
func oneByOne(s *score.Section, i int) (sum LayerSummary) {
	unit := s.Layers[i].Unit
	first := true
	for c := range s.Cycles(i) {
		sum.Changes = sum.Changes || c.Changed && !first && !c.Landing
		first = false
		switch {
		case c.Landing:
		case c.Cut == score.CutByLoop:
			sum.Cut++
		case c.Cut == score.NotCut && c.Start >= s.Layers[i].Enters:
			sum.Whole++
		case c.Cut != score.NotCut:
			sum.Ends, sum.Of = int64(c.Sounds/unit), int64(c.Length/unit)
		}
	}
	return sum
}
