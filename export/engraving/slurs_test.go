package engraving

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/layout"
)

// A flat curve of height h rises 3/4 of it in its middle. One from 0 to 1,000 at
// height 0 that has to pass 90 over its middle must be 120 high (by hand).
func TestArc(t *testing.T) {
	a := arc{x1: 1000, height: 120, away: -1}
	x, y := a.at(1, 2)
	assert.Equal(t, [2]unit{500, -90}, [2]unit{x, y})
	assert.Equal(t, unit(120), a.needed(&obstacle{500, -90}))
	assert.Zero(t, a.needed(&obstacle{500, 10}), "what is on the other side is not in its way")
}

// A wide curve clears what stands by its steep beginning where that is, not some way
// farther on: what begins at 60 and reaches 150 high.
func TestArcClearsAtItsPlace(t *testing.T) {
	a := arc{x1: 3000, away: -1}
	a.clear([]obstacle{{60, -150}})
	for k := range 4096 {
		if x, y := a.at(k, 4096); x >= 60 && x < 1500 {
			require.LessOrEqual(t, y, unit(-149), "at %d", x)
		}
	}
}

// No slur of the testdata cuts a head or a stem of what it joins.
func TestSlursAvoidHeadsAndStems(t *testing.T) {
	p := pieces(t)["../../testdata/sections/harbour-band/section.yaml"]
	s, problems := layout.Lay(p, layout.Options{})
	require.NoError(t, problems.Err())
	e := newEngraver(s, Options{})
	e.watch = true
	curves := 0
	e.systems(func(sys *System) bool {
		for _, b := range sys.boxes {
			if b.what != "slur" {
				continue
			}
			curves++
			for i := range sys.line.spots {
				n := &sys.line.spots[i]
				if n.note == nil || n.staff != b.staff || n.x+118 <= b.x0 || n.x >= b.x1 {
					continue
				}
				top, bottom := n.top()-50, n.bottom()+50
				assert.False(t, b.y0 < bottom && b.y1 > top, "bar %d: a slur at %d to %d meets a head at %d to %d", n.bar+1, b.y0, b.y1, top, bottom)
				if stem := n.stemX(); n.hasStem() && stem > b.x0 && stem < b.x1 {
					assert.False(t, b.y0 < max(n.tip, bottom) && b.y1 > min(n.tip, top), "bar %d: a slur at %d to %d meets a stem", n.bar+1, b.y0, b.y1)
				}
			}
		}
		return true
	})
	assert.Greater(t, curves, 100)
}
