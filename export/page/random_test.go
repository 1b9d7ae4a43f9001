package page

import (
	"bytes"
	"errors"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"tieover/score/sample"
	"tieover/score/spec/spectest"
)

// Whatever the spec, the systems of a figure follow one another without a gap
// and stay on the paper, every attack is drawn once, and every drawing is well
// formed.
func TestRandomSections(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		p := spectest.Read(rt, sample.YAML(rt))
		var b bytes.Buffer
		if err := Write(&b, p, Options{}); err != nil {
			require.True(rt, errors.As(err, &TooMuch{}), "%v", err)
			return
		}
		v := gather(p, 0, nil)
		for _, m := range []measures{wide, narrow, printed} {
			from, hits := p.Sections[0].Opening(), 0
			systems := v.systems(m)
			for i, sys := range systems {
				assert.Equal(rt, from, sys.from)
				assert.LessOrEqual(rt, sys.x(sys.to), m.width-m.right)
				from = sys.to
				drawn := readSVG(t, v.drawSystem(v.frame(i, systems, m)))
				for ink := range inks {
					hits += len(drawn.starts(look{ink: ink}.hit())) + len(drawn.starts(look{ink: ink}.ghost()))
				}
			}
			assert.Equal(rt, v.end, from)
			attacks := 0
			for i := range v.rows {
				for range p.Sections[0].Attacks(i) {
					attacks++
				}
			}
			assert.Equal(rt, attacks, hits, m.name)
		}
	})
}
