package sheet

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/score/beat"
)

// From the table: an eighth is 225, a quarter 290, a half 380; a dotted quarter
// is halfway between the last two.
func TestGaps(t *testing.T) {
	const grid beat.Grid = 64
	for length, want := range map[beat.Time]int{8: 225, 16: 290, 24: 335, 32: 380, 64: 500, 1: 150} {
		assert.Equal(t, want, Gap(length, grid), "%d/64", length)
	}
}

// A half against two quarters: the quarters decide, 290 each. Against an eighth
// and a dotted quarter: the eighth asks for 225, the rest is the dotted
// quarter's 335; the half's shares, a quarter and three quarters of 380, are less.
func TestColumns(t *testing.T) {
	const grid beat.Grid = 8
	half := []Share{{0, 4, Gap(4, grid), 0}}
	assert.Equal(t, []Column{{0, 290, 0}, {2, 290, 0}}, Columns(4, half, []Share{{0, 2, Gap(2, grid), 0}, {2, 2, Gap(2, grid), 0}}))
	both := Columns(4, half, []Share{{0, 1, Gap(1, grid), 0}, {1, 3, Gap(3, grid), 0}})
	assert.Equal(t, []Column{{0, 225, 0}, {1, 335, 0}}, both)
	assert.Equal(t, 225+335+170, BarWidth(both))
	led := Columns(4, []Share{{0, 2, 290, 270}, {2, 2, 290, 440}})
	assert.Equal(t, []Column{{0, 730, 270}, {2, 290, 0}}, led, "grace notes: before the bar's first, and in the gap before others")
	assert.Equal(t, 270+730+290+170, BarWidth(led))
	assert.Equal(t, 700, BarWidth(nil), "a bar's rest")
}
