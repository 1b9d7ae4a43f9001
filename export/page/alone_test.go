package page

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func lone(t *testing.T) map[string]string {
	t.Helper()
	figures, err := Figures(settled(t, 8, round()))
	require.NoError(t, err)
	files := map[string]string{}
	for _, f := range figures {
		var b bytes.Buffer
		require.NoError(t, f.Write(&b))
		files[f.Name] = b.String()
	}
	return files
}

// A figure that stands alone says what it is, and asks for nothing that programs
// for slides and print do not know: variables, order of painting. What only the
// player shows is not in it.
func TestAlone(t *testing.T) {
	for name, svg := range lone(t) {
		for _, unknown := range []string{"var(", "paint-order", "--", `class="now`} {
			assert.NotContains(t, svg, unknown, name)
		}
		drawn := readSVG(t, svg)
		assert.Equal(t, "title", drawn[1].name)
		assert.Equal(t, "desc", drawn[2].name)
		assert.NotEmpty(t, drawn[2].text)
		assert.NotEmpty(t, drawn[0].attr["viewBox"])
	}
	drawn := readSVG(t, lone(t)["figures/realignment.svg"])
	assert.Equal(t, "Lock Keeper's Round, Section B: realignment", drawn[1].text)
	assert.Contains(t, drawn[2].text, "realignment B1 at bar 7 beat 1")
	drawn = readSVG(t, lone(t)["figures/clock-b.svg"])
	assert.Equal(t, "Lock Keeper's Round, Section B: clock b", drawn[1].text)
}

// The colors of the sheet itself: the first ink is #0e2548, the second #9a3324.
func TestLoneStyle(t *testing.T) {
	style := loneStyle()
	for _, rule := range []string{
		"svg text { font-family: Georgia, \"Times New Roman\", serif; font-size: 12px; fill: #1d1b16; }\n",
		"svg .hit { stroke: #1d1b16; stroke-width: 3.6; }\nsvg .hit.ink0 { stroke: #0e2548; }\nsvg .hit.ink1 { stroke: #9a3324; }\n",
		"svg .beam.ink2 { stroke: #b58428; }\n",
		"svg .halo { stroke: #fdfcf8; stroke-width: 3px; }\n",
	} {
		assert.Contains(t, style, rule)
	}
}

// Numbers that stand on lines are drawn twice, the paper around them first.
func TestHalo(t *testing.T) {
	drawn := readSVG(t, lone(t)["figures/realignment.svg"])
	assert.Equal(t, drawn.texts("size"), drawn.texts("size halo"))
	assert.Equal(t, drawn.texts("cycle"), drawn.texts("cycle halo"))
	assert.Empty(t, drawn.texts("bar halo"))
}
