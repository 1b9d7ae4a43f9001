//go:build linux

package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

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
func longSpec(t *testing.T, bars int) string {
	var b strings.Builder
	fmt.Fprintf(&b, "title: Long Canal\nmeter: 4/4\nlength: %d bars\nlayers:\n", bars)
	for i := range 8 {
		fmt.Fprintf(&b, "  - {name: Gate %d, instrument: marimba, groups: %d+3, pitches: A4 C5}\n", i+1, i+2)
	}
	path := filepath.Join(t.TempDir(), "long.yaml")
	require.NoError(t, os.WriteFile(path, []byte(b.String()), 0o644))
	return path
}

// failed runs a build that must fail and returns what it says.
func failed(t *testing.T, args ...string) string {
	t.Helper()
	var out, messages bytes.Buffer
	code := run(append([]string{"build"}, args...), streams{strings.NewReader(""), &out, &messages})
	assert.Equal(t, wrongData, code, "%s", messages.String())
	assert.Empty(t, out.String())
	return messages.String()
}

func TestTargetsThatAreNoFiles(t *testing.T) {
	for _, c := range []struct {
		name string
		make func(path string) error
		want string
	}{
		{"folder", func(p string) error { return os.Mkdir(p, 0o755) }, "chart.txt is a folder"},
		{"link", func(p string) error { return os.Symlink("/elsewhere", p) }, "chart.txt is a link"},
		{"pipe", func(p string) error { return syscall.Mkfifo(p, 0o644) }, "chart.txt is not an ordinary file"},
	} {
		t.Run(c.name, func(t *testing.T) {
			dir := t.TempDir()
			require.NoError(t, c.make(filepath.Join(dir, "chart.txt")))
			assert.Contains(t, failed(t, "-o", dir, round), c.want)
			entries, err := os.ReadDir(dir)
			require.NoError(t, err)
			assert.Len(t, entries, 1, "nothing else was written")
		})
	}
	file := filepath.Join(t.TempDir(), "file")
	require.NoError(t, os.WriteFile(file, nil, 0o644))
	assert.Contains(t, failed(t, "-o", file, round), "is not a folder")
	assert.Contains(t, failed(t, "-o", filepath.Join(file, "below"), round), "not a directory")
}

// mounted gives a small file system of its own; it needs root.
func mounted(t *testing.T, options string) string {
	if os.Getuid() != 0 {
		t.Skip("mounting needs root")
	}
	dir := t.TempDir()
	if err := syscall.Mount("tmpfs", dir, "tmpfs", 0, options); err != nil {
		t.Skipf("cannot mount here: %v", err)
	}
	t.Cleanup(func() { assert.NoError(t, syscall.Unmount(dir, syscall.MNT_DETACH)) })
	return dir
}

func TestDiskFull(t *testing.T) {
	dir := mounted(t, "size=64k")
	assert.Contains(t, failed(t, "-o", dir, round), "no space left on device")
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Empty(t, entries, "neither half files nor temporary ones stay")
}

func TestReadOnlyFolder(t *testing.T) {
	dir := mounted(t, "size=1m")
	require.NoError(t, syscall.Mount("tmpfs", dir, "tmpfs", syscall.MS_REMOUNT|syscall.MS_RDONLY, ""))
	assert.Contains(t, failed(t, "-o", dir, round), "read-only file system")
	assert.Contains(t, failed(t, "-o", filepath.Join(dir, "new"), round), "read-only file system")
}

func TestSpecChangesWhileRead(t *testing.T) {
	path := filepath.Join(t.TempDir(), "moving.yaml")
	require.NoError(t, syscall.Mkfifo(path, 0o644))
	go func() { // a pipe is no regular file, so it may be read as it comes
		text, _ := os.ReadFile(round)
		_ = os.WriteFile(path, text, 0o644)
	}()
	var out, messages bytes.Buffer
	assert.Zero(t, run([]string{"chart", path}, streams{nil, &out, &messages}), messages.String())
	assert.Contains(t, out.String(), "LOCK KEEPER'S ROUND")

	require.NoError(t, os.WriteFile(filepath.Join(t.TempDir(), "x"), nil, 0o644))
	assert.Contains(t, failed(t, "-o", t.TempDir(), t.TempDir()), "is a folder; name a spec file in it")
	assert.Contains(t, failed(t, "-o", t.TempDir(), "missing.yaml"), "no such file")
}

func TestClosedPipe(t *testing.T) {
	c := process("build", "--only", "chart", "-o", "-", longSpec(t, 20_000))
	pipe, err := c.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, c.Start())
	_, err = pipe.Read(make([]byte, 100))
	require.NoError(t, err)
	require.NoError(t, pipe.Close())
	done := make(chan error, 1)
	go func() { done <- c.Wait() }()
	select {
	case <-done: // it ends, by the signal or by itself
	case <-time.After(20 * time.Second):
		require.NoError(t, c.Process.Kill())
		t.Error("it goes on writing for nobody")
	}
}

// stopped starts a long build, sends it a signal as soon as files are being
// written, and returns what is in its folder afterwards.
func stopped(t *testing.T, signal os.Signal) (state *os.ProcessState, names []string) {
	dir := filepath.Join(t.TempDir(), "out")
	c := process("build", "-o", dir, longSpec(t, 20_000))
	require.NoError(t, c.Start())
	for range 2000 {
		if found, _ := filepath.Glob(filepath.Join(dir, ".tieover-*")); len(found) > 0 {
			break
		}
		time.Sleep(time.Millisecond)
	}
	require.NoError(t, c.Process.Signal(signal))
	_ = c.Wait()
	entries, _ := os.ReadDir(dir)
	for _, e := range entries {
		names = append(names, e.Name())
	}
	return c.ProcessState, names
}

func TestInterrupted(t *testing.T) {
	state, names := stopped(t, os.Interrupt)
	assert.Equal(t, wrongData, state.ExitCode())
	assert.Empty(t, names, "not even the folder stays")
}

func TestKilled(t *testing.T) {
	_, names := stopped(t, os.Kill)
	for _, name := range names {
		assert.True(t, strings.HasPrefix(name, ".tieover-") || name == "parts", "%s has its final name", name)
	}
}

func TestTwoBuildsAtOnce(t *testing.T) {
	dir := t.TempDir()
	want := buildInto(t, []string{round})
	var wait sync.WaitGroup
	for range 4 {
		wait.Go(func() {
			var out, messages bytes.Buffer
			assert.Zero(t, run([]string{"build", "-o", dir, round}, streams{nil, &out, &messages}), messages.String())
		})
	}
	wait.Wait()
	assert.Equal(t, want, filesIn(t, dir), "every file is whole")
}
