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
	ended(t, c)
	assert.Equal(t, done, c.ProcessState.ExitCode(), "who reads on has seen enough: %v", c.ProcessState)
}

// Whatever a command prints, a reader that goes away ends it as done.
func TestClosedPipeOfEveryCommand(t *testing.T) {
	for _, line := range []string{
		"--help", "help spec", "build --help", "instruments", "instruments --json", "chart " + round, "report " + round, "report --json " + round,
		"realign 3+2 5", "fit 3+2+2 --bars 6", "find 3 2 2 3 2 2 3 2 2", "find 3 2 2 3 2 2 --json", "find 3 2 2 3 2 2 --spec", "new -", "build -o - --only page " + round,
	} {
		c := process(strings.Fields(line)...)
		read, write, err := os.Pipe()
		require.NoError(t, err)
		require.NoError(t, read.Close())
		c.Stdout = write
		require.NoError(t, c.Start())
		require.NoError(t, write.Close())
		ended(t, c)
		assert.Equal(t, done, c.ProcessState.ExitCode(), "%s: %v", line, c.ProcessState)
	}
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
	for _, sign := range []os.Signal{os.Interrupt, syscall.SIGTERM, syscall.SIGHUP} {
		if signal.Ignored(sign) {
			continue // so were the tests started, and so is the program that they start
		}
		state, names := stopped(t, sign)
		assert.Equal(t, wrongData, state.ExitCode(), sign)
		assert.Empty(t, names, "%v: not even the folder stays", sign)
	}
}

// Who started the program so that it ignores a hang-up, as nohup does, wants it
// to go on.
func TestHangUpIsIgnoredWhereAsked(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "out")
	c := exec.Command("sh", "-c", `trap "" HUP; exec "$0" build --only chart -o "$1" "$2"`, os.Args[0], dir, longSpec(t, 4_000))
	c.Env = append(os.Environ(), asCommand+"=1")
	require.NoError(t, c.Start())
	for waited := time.Duration(0); waited < longEnough; waited += time.Millisecond {
		if found, _ := filepath.Glob(filepath.Join(dir, ".tieover-*")); len(found) > 0 {
			break
		}
		if _, err := os.Stat(filepath.Join(dir, "chart.txt")); err == nil {
			break
		}
		time.Sleep(time.Millisecond)
	}
	require.NoError(t, c.Process.Signal(syscall.SIGHUP))
	ended(t, c)
	assert.Equal(t, done, c.ProcessState.ExitCode(), "%v", c.ProcessState)
	assert.FileExists(t, filepath.Join(dir, "chart.txt"))
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
