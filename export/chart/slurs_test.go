package chart_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/export/chart"
)

// A slur is drawn from its first stroke to its last, over barlines too: the Flute
// slurs its first two strokes of three, the Oboe all its strokes of bars 1 and 2 by
// the plan (by hand).
func TestSlursOverStrokes(t *testing.T) {
	text := `
title: Soft locks
meter: 7/8
length: 2 bars
layers:
  - {name: Flute, instrument: flute, groups: 3+2+2, pitches: A4, slurs: 2+1}
  - {name: Oboe, instrument: oboe, groups: 4+3, pitches: A4}
plan: [{at: Oboe attack 2, slur: yes, to: Oboe attack 4}]
`
	opt := chart.Default()
	assert.NotContains(t, written(t, text, opt), "slurred")
	opt.Touches = true
	got := written(t, text, opt)
	assert.Contains(t, got, `\__/ slurred`)
	_, rows, _ := strings.Cut(got, "\n\n")
	assert.Contains(t, rows, strings.TrimPrefix(`
           \_____/        \_____/
   7      |X 2 3 x 2 x 2 |X 2 3 x 2 x 2 ||X
`, "\n"))
	assert.Contains(t, rows, strings.TrimPrefix(`
                   \______________/
   7      |X 2 3 4 x 2 3 |X 2 3 4 x 2 3 ||X
`, "\n"))
}

// As on paper, no slur stands over slashes: one that leads into them ends with the last
// stroke before, if it has two; of one that leads out of them nothing is left. By hand:
// bar 2 is in slashes, four strokes a bar; attacks 3 to 6, 7 to 10 and 11 to 12.
func TestSlursKeepOutOfSlashes(t *testing.T) {
	const text = `
title: Soft locks
meter: 4/4
length: 3 bars
layers:
  - {name: Flute, instrument: flute, groups: 2x4, pitches: A4%s}
plan:
  - {at: bar 2, written: slashes, to: bar 3}
  - {at: Flute attack 7, slur: yes, to: Flute attack 10}
`
	opt := chart.Default()
	opt.Touches = true
	_, rows, _ := strings.Cut(written(t, fmt.Sprintf(text, "")+
		"  - {at: Flute attack 3, slur: yes, to: Flute attack 6}\n  - {at: Flute attack 11, slur: yes, to: Flute attack 12}\n", opt), "\n\n")
	assert.Contains(t, rows, strings.TrimPrefix(`
                  \___/                             \___/
   8     |X 2 x 2 x 2 x 2 |/   /   /   /   |X 2 x 2 x 2 x 2 ||X
`, "\n"))

	for _, none := range []string{
		fmt.Sprintf(text, ""),
		fmt.Sprintf(text, "") + "  - {at: Flute attack 4, slur: yes, to: Flute attack 5}\n",
		fmt.Sprintf(text, ", slurs: 2, written: slashes"),
	} {
		_, rows, _ = strings.Cut(written(t, none, opt), "\n\n")
		assert.NotContains(t, rows, `\`, none)
		assert.Contains(t, rows, "|/   /   /   /   |")
	}
}
