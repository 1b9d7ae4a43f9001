package worksheet_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tieover/export/worksheet"
	"tieover/score/sample"
	"tieover/score/spec"
)

// Whatever a spec may say: a worksheet is made, or it is said what was lacking.
func TestWorksheetsOfSampledSections(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		text := sample.YAML(r)
		p, problems := spec.Read([]spec.File{{Name: "s", Text: []byte(text)}})
		if len(problems) > 0 {
			r.Skip("no section")
		}
		r.Log(text)
		o := options(rapid.Uint64().Draw(r, "seed"), rapid.IntRange(1, 3).Draw(r, "level"))
		o.Width = rapid.IntRange(worksheet.Narrowest, 90).Draw(r, "width")
		files, left, err := worksheet.Make(p, o)
		require.NoError(r, err)
		require.True(r, len(files) > 0 || len(left) == 6)
		for _, l := range left {
			require.NotEmpty(r, l.Why)
		}
		for _, f := range files {
			var b strings.Builder
			require.NoError(r, f.Write(&b), f.Name)
			if strings.HasSuffix(f.Name, ".txt") {
				tidy(r, o, f.Name, b.String())
			}
		}
	})
}
