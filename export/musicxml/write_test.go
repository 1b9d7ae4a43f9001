package musicxml

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/require"

	"tieover/layout"
)

// writtenDoc returns the sheet as a document.
func writtenDoc(t testing.TB, s *layout.Sheet, o Options) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, Write(&b, s, o))
	return b.Bytes()
}
