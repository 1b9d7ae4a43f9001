package chart_test

import (
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
