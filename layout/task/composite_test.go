package task

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/score/spec/spectest"
)

// B plays in bars 5 to 8 alone, and C in none with it: whoever is drawn, the composite
// is of bars in which all play. In each, A strikes on eighths 0 and 4, B on 0, 3 and 6:
// four moments, one of them of both.
func TestCompositesOfLayersThatComeAndGo(t *testing.T) {
	const layers = "title: T\ntempo: 60\nmeter: 4/4\nlength: 12 bars\nlayers:\n  - {name: A, groups: 4+4}\n  - {name: B, groups: 3+3+2, enters: bar 5, leaves: bar 9}\n"
	for seed := range uint64(20) {
		for level, want := range map[int][]string{
			1: {"attacks of the composite: 8", "of these struck together: 2"},
			2: {"attacks of the composite: 16", "of these struck together: 4"},
		} {
			made, left := Make(spectest.Read(t, layers+"  - {name: C, groups: 3+3+2, enters: bar 9}\n"), Options{Level: level, Seed: seed, Only: []Kind{Composite}})
			require.Empty(t, left)
			e := made[0]
			require.Len(t, names(e.Given), 2)
			assert.Equal(t, want, e.Answer)
			if names(e.Given)[1] == "B" {
				assert.True(t, e.Given.From >= 5 && e.Given.To <= 8, "%d to %d", e.Given.From, e.Given.To)
			} else {
				assert.GreaterOrEqual(t, e.Given.From, 9)
			}
		}
	}
	_, left := Make(spectest.Read(t, layers), Options{Level: 3, Only: []Kind{Composite}})
	assert.Equal(t, []Left{{Composite, notTogether}}, left)
}

// A and B are the same up to bar 4; from bar 5 on B is 3+2+3, struck on 0, 3 and 5 where
// A is on 0, 3 and 6. Bars are chosen in which they are apart, if there are any.
func TestACompositeIsNotInUnisonThroughout(t *testing.T) {
	const layers = "title: T\ntempo: 60\nmeter: 4/4\nlength: 8 bars\nlayers:\n  - {name: A, groups: 3+3+2}\n  - {name: B, groups: 3+3+2"
	for seed := range uint64(20) {
		made, left := Make(spectest.Read(t, layers+", process: {rotate: {by: 1, after: 4}}}\n"), Options{Level: 1, Seed: seed, Only: []Kind{Composite}})
		require.Empty(t, left)
		want := []string{"attacks of the composite: 8", "of these struck together: 4"}
		if made[0].Given.From == 4 { // bars 4 and 5
			want = []string{"attacks of the composite: 7", "of these struck together: 5"}
		}
		assert.Equal(t, want, made[0].Answer)
		assert.GreaterOrEqual(t, made[0].Given.To, 5)
	}
	e, why := one(t, Composite, 1, "meter: 4/4\nlength: 8 bars\nlayers:\n  - {name: A, groups: 3+3+2}\n  - {name: B, groups: 3+3+2}\n")
	require.Empty(t, why)
	assert.Equal(t, []string{"attacks of the composite: 6", "of these struck together: 6"}, e.Answer)
}
