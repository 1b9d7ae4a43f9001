package engraving

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/layout"
	"tieover/layout/sheet"
)

// What layout puts on a line the drawing can hold: on the usual paper all systems
// of the test data begin where the sheet says.
func TestSystemsBeginWhereTheSheetSays(t *testing.T) {
	for path, p := range pieces(t) {
		whole, problems := layout.Lay(p, layout.Options{})
		require.NoError(t, problems.Err())
		sheets := []*sheet.Sheet{whole}
		for i := range p.Players() {
			part, problems := layout.LayPart(p, layout.Options{Edition: sheet.Play}, i)
			require.NoError(t, problems.Err())
			sheets = append(sheets, part)
		}
		for i, s := range sheets {
			var want []int
			n := 0 // a pickup is not counted
			for b := range s.Parts[0].Bars() {
				if b.Measure.Skipped == 0 {
					n++
				}
				if want == nil || b.Break != sheet.NoBreak {
					want = append(want, n)
				}
			}
			var got []int
			for sys := range Systems(s, Options{}) {
				got = append(got, sys.FirstBar)
			}
			assert.Equal(t, want, got, "%s, sheet %d", path, i)
		}
	}
}
