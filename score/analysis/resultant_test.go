package analysis_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/score"
	. "tieover/score/analysis"
	"tieover/score/process"
)

// The heads of loops make the resultant of their lengths, whatever the groups:
// J. Schillinger, The Schillinger System of Musical Composition (1946), Book I
// ch. 2 and 6; with fractioning ch. 4, from memory.
func TestResultantOfTheHeads(t *testing.T) {
	meter := score.PlainSignature(4, 4)
	r := Of(section(t, meter, 60, loop("a", 1, 1), loop("b", 2, 1), loop("c", 3, 2))).Resultant
	require.NotNil(t, r)
	assert.Equal(t, []int{2, 3, 5}, r.Generators)
	assert.Equal(t, []int{2, 1, 1, 1, 1, 2, 1, 1, 2, 2, 1, 1, 2, 2, 1, 1, 2, 1, 1, 1, 1, 2}, r.Series)
	assert.Equal(t, []int{15, 10, 6}, r.Factors)
	assert.Equal(t, []int{6, 4, 2, 3, 3, 2, 4, 6}, r.Complement)
	assert.Nil(t, r.Fractioned)

	r = Of(section(t, meter, 12, loop("a", 3), loop("b", 4))).Resultant
	require.NotNil(t, r)
	assert.Equal(t, []int{3, 1, 2, 2, 1, 3}, r.Series)
	assert.Nil(t, r.Complement, "of two it is the same again")
	assert.Equal(t, []int{3, 1, 2, 1, 1, 1, 1, 2, 1, 3}, r.Fractioned)

	// 6:4 is one period of 12 (by hand); with a common divisor the factors would
	// meet sooner.
	r = Of(section(t, meter, 12, loop("a", 6), loop("b", 4), loop("c", 2))).Resultant
	assert.Equal(t, []int{2, 2, 2, 2, 2, 2}, r.Series)
	assert.Nil(t, r.Complement)
}

// No resultant where the heads are not equally far apart, do not start together,
// or there is nothing to combine.
func TestNoResultant(t *testing.T) {
	meter := score.PlainSignature(4, 4)
	assert.Nil(t, Of(section(t, meter, 56, loop("a", 7))).Resultant)
	late := loop("b", 5)
	late.Offset = 2
	assert.Nil(t, Of(section(t, meter, 56, loop("a", 7), late)).Resultant)
	turning := loop("b", 3, 2)
	turning.Process = []score.Process{{Rule: process.Rule{Kind: process.Rotate, By: 1, After: 1}}}
	assert.Nil(t, Of(section(t, meter, 56, loop("a", 7), turning)).Resultant)
	growing := loop("b", 3, 2)
	growing.Process = []score.Process{{Rule: process.Rule{Kind: process.Append, Size: 2, After: 1}}}
	assert.Nil(t, Of(section(t, meter, 56, loop("a", 7), growing)).Resultant)
	uneven := loop("b", 3, 2)
	uneven.Patterns = append(uneven.Patterns, score.Pattern{Groups: []score.Item{{Size: 3}}})
	assert.Nil(t, Of(section(t, meter, 56, loop("a", 7), uneven)).Resultant)
	assert.Nil(t, Of(section(t, meter, 56, loop("a", 1009), loop("b", 997))).Resultant, "2,006 durations")
}
