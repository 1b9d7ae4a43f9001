package engraving

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/export/engraving/pen"
	"tieover/layout"
)

// A flat curve of height h rises 3/4 of it in its middle. One from 0 to 1,000 at
// height 0 that has to pass 90 over its middle must be 120 high (by hand).
func TestArc(t *testing.T) {
	a := arc{x1: 1000, height: 120, away: -1}
	x, y := a.at(1, 2)
	assert.Equal(t, [2]pen.Unit{500, -90}, [2]pen.Unit{x, y})
	assert.Equal(t, pen.Unit(120), a.needed(&obstacle{500, -90}))
	assert.Zero(t, a.needed(&obstacle{500, 10}), "what is on the other side is not in its way")
}

// A wide curve clears what stands by its steep beginning where that is, not some way
// farther on: what begins at 60 and reaches 150 high.
func TestArcClearsAtItsPlace(t *testing.T) {
	a := arc{x1: 3000, away: -1}
	a.clear([]obstacle{{60, -150}})
	for k := range 4096 {
		if x, y := a.at(k, 4096); x >= 60 && x < 1500 {
			require.LessOrEqual(t, y, pen.Unit(-149), "at %d", x)
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
			if b.What != "slur" {
				continue
			}
			curves++
			for i := range sys.line.spots {
				n := &sys.line.spots[i]
				if n.Note == nil || n.Staff != b.Staff || n.X+118 <= b.X0 || n.X >= b.X1 {
					continue
				}
				top, bottom := n.Top()-50, n.Bottom()+50
				assert.False(t, b.Y0 < bottom && b.Y1 > top, "bar %d: a slur at %d to %d meets a head at %d to %d", n.Bar+1, b.Y0, b.Y1, top, bottom)
				if stem := n.stemX(); n.HasStem() && stem > b.X0 && stem < b.X1 {
					assert.False(t, b.Y0 < max(n.tip, bottom) && b.Y1 > min(n.tip, top), "bar %d: a slur at %d to %d meets a stem", n.Bar+1, b.Y0, b.Y1)
				}
			}
		}
		return true
	})
	assert.Greater(t, curves, 100)
}
