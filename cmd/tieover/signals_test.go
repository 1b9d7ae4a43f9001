//go:build linux

package main

import (
	"io"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// longEnough is how long a test waits for another process before it gives up.
const longEnough = 5 * time.Minute

// ended waits for a process and fails if it goes on for ever.
func ended(t *testing.T, c *exec.Cmd) {
	t.Helper()
	done := make(chan error, 1)
	go func() { done <- c.Wait() }()
	select {
	case <-done:
	case <-time.After(longEnough):
		require.NoError(t, c.Process.Kill())
		t.Error("it does not end")
	}
}

// heedful is a process of tieover that heeds an interrupt even if the tests run
// in the background of a shell, where programs are made to ignore it.
func heedful(t *testing.T, args ...string) *exec.Cmd {
	t.Helper()
	caught := make(chan os.Signal, 1)
	signal.Notify(caught, os.Interrupt) // what is caught here is not ignored in processes begun here
	t.Cleanup(func() { signal.Stop(caught) })
	return process(args...)
}

func TestClosedPipe(t *testing.T) {
	c := process("build", "--only", "chart", "-o", "-", longSpec(t, 20_000))
	pipe, err := c.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, c.Start())
	_, err = io.ReadFull(pipe, make([]byte, 100))
	require.NoError(t, err)
	require.NoError(t, pipe.Close())
	ended(t, c) // by the signal or by itself
}

// stopped starts a long build, sends it a signal as soon as files are being
// written, and returns what is in its folder afterwards.
func stopped(t *testing.T, signal os.Signal) (state *os.ProcessState, names []string) {
	dir := filepath.Join(t.TempDir(), "out")
	c := heedful(t, "build", "-o", dir, longSpec(t, 40_000))
	require.NoError(t, c.Start())
	begun := func() bool {
		found, _ := filepath.Glob(filepath.Join(dir, ".tieover-*"))
		return len(found) > 0
	}
	for waited := time.Duration(0); !begun() && waited < longEnough; waited += time.Millisecond {
		time.Sleep(time.Millisecond)
	}
	assert.True(t, begun(), "nothing is being written")
	require.NoError(t, c.Process.Signal(signal))
	ended(t, c)
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
		assert.True(t, strings.HasPrefix(name, ".tieover") || name == "parts", "%s has its final name", name)
	}
}

// A signal ends what writes no file at once, even while it waits for input.
func TestInterruptedWhileReading(t *testing.T) {
	for _, signal := range []os.Signal{os.Interrupt, syscall.SIGTERM} {
		c := heedful(t, "chart", "-")
		in, err := c.StdinPipe()
		require.NoError(t, err)
		require.NoError(t, c.Start())
		_, err = in.Write([]byte("title: Slow Barge\n"))
		require.NoError(t, err)
		require.NoError(t, c.Process.Signal(signal)) // whether it reads yet or only starts
		ended(t, c)
		assert.False(t, c.ProcessState.Success(), signal)
	}
}
