package page

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/score"
	"tieover/score/beat"
)

func TestWithin(t *testing.T) {
	at := func(t beat.Time) beat.Time { return t }
	list := []beat.Time{0, 3, 3, 8}
	assert.Equal(t, []beat.Time{3, 3}, inWindow(list, 1, 8, at))
	assert.Equal(t, list, inWindow(list, 0, 9, at))
	assert.Empty(t, inWindow(list, 4, 8, at))
	assert.Empty(t, inWindow(list, 9, 20, at))
}

// A group of 40 eighths struck once sounds over the line's end: every line until
// its end has the line of its sound, the ones after it have not. One group of 40
// in 5/4 and a layer of tens beside it, 3 bars of 10 to a line.
func TestSoundsOverLines(t *testing.T) {
	s := section(score.PlainSignature(5, 4), 1, layer("Long", "", []int{40, 20}), layer("Short", "", []int{10}))
	s.LengthRule = score.LengthRule{Kind: score.Pulses, N: 120}
	v := gather(settled(t, 8, s), 0, nil)
	assert.Equal(t, beat.Time(60), v.rows[0].cycles[0].over)
	assert.Equal(t, 2, v.rows[0].countBefore(120))
	assert.Equal(t, 1, v.rows[0].countBefore(60))
	systems := v.systems(wide)
	for i, want := range [][]string{xs(systems[0], 0), xs(systems[1], 30, 40), xs(systems[2], 60), xs(systems[3], 90, 100)} {
		drawn := readSVG(t, v.drawSystem(v.frame(i, systems, wide)))
		assert.Equal(t, want, drawn.starts("sound")[:len(want)], "line %d", i+1)
	}
}
