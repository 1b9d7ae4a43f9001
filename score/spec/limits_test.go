package spec

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The limits of a file one below, at, and one above.
func TestLimitsOfAFile(t *testing.T) {
	head := "title: Towpath\nlength: 2 bars\nlayers:\n"
	layers := func(n int) string {
		text := head
		for i := range n {
			text += fmt.Sprintf("  - {name: Lock %d, groups: 3+2}\n", i+1)
		}
		return text
	}
	for n, want := range map[int]string{63: "", 64: "", 65: "more than 64 layers in a section"} {
		limit(t, layers(n), want)
	}
	for n, want := range map[int]string{4095: "", 4096: "", 4097: "a cycle has more than 4096 groups"} {
		limit(t, head+fmt.Sprintf("  - {name: Bell, groups: 1x%d}\n", n), want)
	}
	for n, want := range map[int]string{1<<20 - 1: "", 1 << 20: "", 1<<20 + 1: "the file has more than 1048576 bytes (1 MiB)"} {
		text := layers(1) + "#"
		limit(t, text+strings.Repeat("~", n-len(text)), want)
	}
}

func limit(t *testing.T, text, want string) {
	t.Helper()
	piece, problems := Read([]File{{"Lock.yaml", []byte(text)}})
	if want == "" {
		require.Empty(t, problems)
		assert.NotNil(t, piece)
		return
	}
	require.Len(t, problems, 1)
	assert.Equal(t, want, problems[0].Text)
}
