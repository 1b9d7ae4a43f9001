// Package spectest reads specs for tests, which fail where one has a mistake.
package spectest

import (
	"os"
	"path/filepath"

	"github.com/stretchr/testify/require"

	"tieover/score"
	"tieover/score/spec"
)

// Read returns the piece of specs, a section each.
func Read(t require.TestingT, texts ...string) *score.Piece {
	if h, ok := t.(interface{ Helper() }); ok {
		h.Helper()
	}
	var files []spec.File
	for _, text := range texts {
		files = append(files, spec.File{Name: "test.yaml", Text: []byte(text)})
	}
	p, problems := spec.Read(files)
	require.NoError(t, problems.Err(), texts)
	return p
}

// ReadFiles returns the piece of spec files, a section each.
func ReadFiles(t require.TestingT, names ...string) *score.Piece {
	var texts []string
	for _, name := range names {
		text, err := os.ReadFile(name)
		require.NoError(t, err)
		texts = append(texts, string(text))
	}
	return Read(t, texts...)
}

// Sections lists the specs of the test data, by their paths from a package that is so
// many directories below the root.
func Sections(t require.TestingT, below int) []string {
	path := "testdata/sections/*/section.yaml"
	for range below {
		path = "../" + path
	}
	names, err := filepath.Glob(path)
	require.NoError(t, err)
	require.NotEmpty(t, names)
	return names
}
