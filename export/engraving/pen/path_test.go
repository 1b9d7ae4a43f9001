package pen

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// drawnBy returns the path that a drawing makes.
func drawnBy(draw func(p *Path)) string {
	var p Path
	draw(&p)
	return string(p)
}

// Ten drawing units are a space, so 1/100 of a space is a tenth with one decimal; a
// minus sign parts numbers as a blank does (SVG 1.1, 8.3.9).
func TestNumbersOfPaths(t *testing.T) {
	for want, numbers := range map[string][]Unit{
		"M0 0": {0, 0}, "M10 0.5": {100, 5}, "M-0.1-12.3": {-1, -123}, "M99.9-10 1": {999, -100, 10}, "M": nil,
	} {
		assert.Equal(t, want, drawnBy(func(p *Path) { p.At('M', numbers...) }))
	}
	assert.Equal(t, "M1 2h3v-0.4", drawnBy(func(p *Path) { p.At('M', 10, 20); p.At('h', 30); p.At('v', -4) }))
}

func TestBoxesAndBars(t *testing.T) {
	assert.Equal(t, "M1-2H3V4H1z", drawnBy(func(p *Path) { p.Box(10, -20, 30, 40) }))
	// A beam from 10 down to 16 over 30, 5 thick: both its edges fall by 6.
	assert.Equal(t, "M0 10L30 16v5L0 15z", drawnBy(func(p *Path) { p.Slanted(0, 100, 300, 160, 50) }))
}

// By hand: a dash of 30 and a gap of 20 from 0 to 120 leave dashes at 0, 50 and 100, the
// last cut to 20; a width of 12 is 6 to each side.
func TestDashes(t *testing.T) {
	assert.Equal(t, "M9.4 0H10.6V3H9.4z"+"M9.4 5H10.6V8H9.4z"+"M9.4 10H10.6V12H9.4z",
		drawnBy(func(p *Path) { p.Dashes(100, 0, 120, 12, 30, 20) }))
	assert.Empty(t, drawnBy(func(p *Path) { p.Dashes(100, 50, 50, 12, 30, 20) }))
}

// y grows downwards: upwards the smaller height is the farther one.
func TestDirections(t *testing.T) {
	assert.Equal(t, Upwards, Direction(true))
	assert.Equal(t, Downwards, Direction(false))
	assert.Equal(t, Unit(-50), Farther(Upwards, -50, 20))
	assert.Equal(t, Unit(20), Farther(Downwards, -50, 20))
	assert.Equal(t, Unit(-50), Farther(Upwards, Upwards*Nowhere, -50))
	assert.Equal(t, Unit(66), Unit(100).Percent(66))
	assert.Equal(t, Unit(-84), Unit(-118).Percent(72)) // 84.96, cut off
}
