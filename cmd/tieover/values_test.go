package main

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestListFlag(t *testing.T) {
	for given, want := range map[string][]string{
		"a,b":               {"a", "b"},
		"Marimba, Low Bell": {"Marimba", "Low Bell"},
		`"a, b", c`:         {"a, b", "c"},
		`the "big" one,x`:   {`the "big" one`, "x"},
	} {
		words := []string{"usual"}
		require.NoError(t, (&list{into: &words}).Set(given), given)
		assert.Equal(t, want, words, given)
	}
	for _, wrong := range []string{"", "a\nb"} {
		words := []string{"usual"}
		require.Error(t, (&list{into: &words}).Set(wrong), "%q", wrong)
		assert.Equal(t, []string{"usual"}, words)
	}
	words := []string{"usual"}
	l := &list{into: &words}
	assert.Equal(t, "usual", l.String())
	require.NoError(t, l.Set("a"))
	require.NoError(t, l.Set("b"))
	assert.Equal(t, []string{"a", "b"}, words)
}
