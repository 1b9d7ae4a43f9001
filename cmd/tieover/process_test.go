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
// a process. Where tellPeak names a file, what Linux knows of the process is
// written there in the end.
const (
	asCommand = "TIEOVER_AS_COMMAND"
	tellPeak  = "TIEOVER_TELL_PEAK"
)

func TestMain(m *testing.M) {
	if os.Getenv(asCommand) == "" {
		os.Exit(m.Run())
	}
	code := asProgram()
	if path := os.Getenv(tellPeak); path != "" {
		if status, err := os.ReadFile("/proc/self/status"); err == nil {
			_ = os.WriteFile(path, status, 0o600)
		}
	}
	os.Exit(code)
}

// peakOf runs the process and returns the most memory that it held, in KiB;
// ok is false where the system does not tell.
func peakOf(t testing.TB, c *exec.Cmd) (kib int, ok bool) {
	t.Helper()
	path := filepath.Join(t.TempDir(), "status")
	c.Env = append(c.Env, tellPeak+"="+path)
	messages, err := c.CombinedOutput()
	require.NoError(t, err, "%s", messages)
	status, err := os.ReadFile(path)
	if err != nil {
		return 0, false
	}
	_, line, _ := strings.Cut(string(status), "VmHWM:")
	n, err := fmt.Sscan(line, &kib)
	return kib, n == 1 && err == nil
}

func process(args ...string) *exec.Cmd {
	c := exec.Command(os.Args[0], args...)
	c.Env = append(os.Environ(), asCommand+"=1")
	return c
}

const round = "../../testdata/sections/lock-keepers-round/section.yaml"

// longSpec is the file of a piece that takes a while to write.
func longSpec(t *testing.T, bars int) string {
	path := filepath.Join(t.TempDir(), "long.yaml")
	require.NoError(t, os.WriteFile(path, []byte(canal(8, bars)), 0o644))
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

// A hundred times the bars are built with the same memory.
func TestMemoryWhateverTheLength(t *testing.T) {
	if testing.Short() {
		t.Skip("builds 5,000 bars of 8 layers")
	}
	peak := func(bars int) int {
		kib, ok := peakOf(t, process("build", "-o", t.TempDir(), "--only", "musicxml,chart,report,json", longSpec(t, bars)))
		if !ok {
			t.Skip("this system does not tell")
		}
		return kib
	}
	short, long := peak(50), peak(5000)
	t.Logf("%d KiB for 50 bars, %d KiB for 5,000", short, long)
	assert.Less(t, long, short+(60<<10), "holding the output alone would take more")
}
