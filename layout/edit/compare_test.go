package edit_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/layout"
	"tieover/layout/edit"
	"tieover/layout/sheet"
	"tieover/score/spec/spectest"
)

// Bars 2 and 3 of 5/4 are eighths 10 to 30. In bars of the 12-eighth cycle they
// are covered by its bars 1 (0–12), 2 and 3 (24–36).
func TestCompareCoversTheSameTime(t *testing.T) {
	p := spectest.Read(t, lockRound)
	a, problems := layout.Lay(p, layout.Options{})
	require.Empty(t, problems)
	a, problems = edit.Excerpt(a, 2, 3, nil)
	require.Empty(t, problems)
	b, problems := layout.Lay(p, layout.Options{Barring: layout.Barring{View: layout.ByLayer, Layer: "Vibraphone"}})
	require.Empty(t, problems)

	both, problems := edit.Compare(a, b, [2]string{"in 5/4", "in bars of Vibraphone"})
	require.Empty(t, problems)
	assert.Equal(t, 5, both.Bars)
	for i := range both.Parts {
		var meters []string
		var numbers []int
		var breaks []sheet.Break
		var headings []string
		for bar := range both.Parts[i].Bars() {
			meters = append(meters, bar.Measure.Signature.String())
			numbers = append(numbers, bar.Number)
			breaks = append(breaks, bar.Break)
			for _, m := range bar.Marks {
				if m.Kind == sheet.Words {
					headings = append(headings, m.Text)
				}
			}
		}
		vib := "3+3+2+2+2/8"
		assert.Equal(t, []string{"5/4", "5/4", vib, vib, vib}, meters)
		assert.Equal(t, []int{2, 3, 4, 5, 6}, numbers, "unique, the later ones unprinted")
		assert.Equal(t, sheet.NewSystem, breaks[2])
		if i == 0 {
			assert.Equal(t, []string{"in 5/4", "in bars of Vibraphone"}, headings)
		}
		require.NoError(t, sheet.Check(both, &both.Parts[i]))
	}
}
