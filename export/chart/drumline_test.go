package chart_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/export/chart"
)

// The codes of drum sounds are explained wherever they come from: a series, a free line,
// the pitches of one cycle.
func TestDrumCodesAreExplained(t *testing.T) {
	for _, layer := range []string{
		"{name: Kit, instrument: drum set, groups: 2x4, pitches: [snare]}",
		"{name: Kit, instrument: drum set, line: \"snare 1/4, snare 1/4\"}",
		"{name: Kit, instrument: drum set, groups: 2x4, pitches: [closed hi-hat], except: [{cycle: 2, pitches: snare}]}",
	} {
		opt := chart.Default()
		opt.Pitches = true
		got := written(t, "title: Weir\nmeter: 4/4\nlength: 4 bars\nlayers:\n  - "+layer+"\n", opt)
		assert.Contains(t, got, "sn = snare", layer)
	}
}
