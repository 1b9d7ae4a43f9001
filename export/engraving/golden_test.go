package engraving

import (
	"flag"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/layout"
	"tieover/layout/sheet"
)

var update = flag.Bool("update", false, "write what is drawn into testdata; look at the pictures")

// The first system of pieces that have, between them, all signs.
func TestGoldens(t *testing.T) {
	for _, name := range []string{"boat-song", "crane-shanty", "gate-signals", "growing-wake", "kopanica", "night-watch", "phasing-bells", "sluice-triplets", "two-hands", "three-sluices"} {
		p := pieces(t)["../../testdata/sections/"+name+"/section.yaml"]
		require.NotNil(t, p, name)
		s, problems := layout.Lay(p, layout.Options{})
		require.NoError(t, problems.Err())
		golden(t, name, s)
	}
	guitar, problems := layout.LayPart(pieces(t)["../../testdata/sections/harbour-band/section.yaml"], layout.Options{}, 5)
	require.NoError(t, problems.Err())
	golden(t, "tablature", guitar)
}

// golden compares the first system of a sheet with its picture.
func golden(t *testing.T, name string, s *sheet.Sheet) {
	t.Helper()
	for sys := range Systems(s, Options{}) {
		path := "testdata/" + name + ".svg"
		got := DefaultPaper.Picture(sys)
		if *update {
			require.NoError(t, os.MkdirAll("testdata", 0o755))
			require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
		} else {
			want, err := os.ReadFile(path)
			require.NoError(t, err)
			assert.Equal(t, string(want), got, "%s; accept with -update, then look at it", path)
		}
		return
	}
}
