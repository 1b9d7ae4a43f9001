package align

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

func TestQuickFunctions(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := math.Ldexp(rapid.Float64Range(1, 2).Draw(t, "mantissa"), rapid.IntRange(-300, 300).Draw(t, "octave"))
		assert.InDelta(t, math.Log2(x), log2(x), 1e-12)
		y := rapid.Float64Range(-300, 300).Draw(t, "exponent")
		assert.InEpsilon(t, math.Exp2(y), exp2(y), 1e-12)
	})
	for k := -20; k <= 20; k++ {
		assert.InDelta(t, float64(k), log2(math.Ldexp(1, k)), 1e-12)
		assert.InEpsilon(t, math.Ldexp(1, k), exp2(float64(k)), 1e-12)
	}
}
