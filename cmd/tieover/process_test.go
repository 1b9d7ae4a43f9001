package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// asCommand makes the test binary behave as tieover itself, for tests that need
// a process.
const asCommand = "TIEOVER_AS_COMMAND"

func TestMain(m *testing.M) {
	if os.Getenv(asCommand) != "" {
		main()
	}
	os.Exit(m.Run())
}

func process(args ...string) *exec.Cmd {
	c := exec.Command(os.Args[0], args...)
	c.Env = append(os.Environ(), asCommand+"=1")
	return c
}

const round = "../../testdata/sections/lock-keepers-round/section.yaml"

// longSpec is a piece that takes a while to write.
func longSpec(t testing.TB, bars int) string {
	var b strings.Builder
	fmt.Fprintf(&b, "title: Long Canal\nmeter: 4/4\nlength: %d bars\nlayers:\n", bars)
	for i := range 8 {
		fmt.Fprintf(&b, "  - {name: Gate %d, instrument: marimba, groups: %d+3, pitches: A4 C5}\n", i+1, i+2)
	}
	path := filepath.Join(t.TempDir(), "long.yaml")
	require.NoError(t, os.WriteFile(path, []byte(b.String()), 0o644))
	return path
}

// The bytes are the same however many processors take part.
func TestBytesWhateverTheProcessors(t *testing.T) {
	spec := longSpec(t, 40)
	var first map[string]string
	for _, n := range []int{1, 2, 8} {
		dir := t.TempDir()
		c := process("build", "-o", dir, "--only", "musicxml,chart,report,json,midi,page,figures", spec)
		c.Env = append(c.Env, fmt.Sprintf("GOMAXPROCS=%d", n))
		messages, err := c.CombinedOutput()
		require.NoError(t, err, "%s", messages)
		files := filesIn(t, dir)
		if first == nil {
			first = files
		}
		assert.Greater(t, len(files), 15)
		assert.Equal(t, first, files, "on %d processors", n)
	}
}
