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
	half := []Share{{0, 4, Gap(4, grid)}}
	assert.Equal(t, []Column{{0, 290}, {2, 290}}, Columns(4, half, []Share{{0, 2, Gap(2, grid)}, {2, 2, Gap(2, grid)}}))
	both := Columns(4, half, []Share{{0, 1, Gap(1, grid)}, {1, 3, Gap(3, grid)}})
	assert.Equal(t, []Column{{0, 225}, {1, 335}}, both)
	assert.Equal(t, 225+335+170, BarWidth(both))
	assert.Equal(t, 700, BarWidth(nil), "a bar's rest")
}
