package source_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"tieover/score/source"
)

func TestProblemsComeInReadingOrder(t *testing.T) {
	var ps source.Problems
	assert.NoError(t, ps.Err(), "no problems are no error")
	ps.Add(source.Pos{File: "b.yaml", Line: 3, Column: 2}, "late", "")
	ps.Add(source.Pos{File: "b.yaml", Line: 1, Column: 9}, `unknown key "lenght"`, `did you mean "length"?`)
	ps.Add(source.Pos{File: "b.yaml"}, "whole file", "")
	ps.Sort()
	assert.EqualError(t, ps.Err(), "b.yaml: whole file\nb.yaml:1:9: unknown key \"lenght\"; did you mean \"length\"?\nb.yaml:3:2: late")
	back, ok := source.Of(ps.Err())
	assert.True(t, ok)
	assert.Equal(t, ps, back)
}
