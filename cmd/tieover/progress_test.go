//go:build linux

package main

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"strings"
	"sync/atomic"
	"syscall"
	"testing"
	"time"
	"unsafe"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// terminal opens a terminal of its own: what is written to the one end can be
// read at the other.
func terminal(t *testing.T) (end, other *os.File) {
	t.Helper()
	other, err := os.OpenFile("/dev/ptmx", os.O_RDWR|syscall.O_NOCTTY, 0)
	if err != nil {
		t.Skip(err)
	}
	t.Cleanup(func() { other.Close() })
	var number, unlocked int32
	for request, argument := range map[uintptr]*int32{syscall.TIOCSPTLCK: &unlocked, syscall.TIOCGPTN: &number} {
		if _, _, wrong := syscall.Syscall(syscall.SYS_IOCTL, other.Fd(), request, uintptr(unsafe.Pointer(argument))); wrong != 0 {
			t.Skip(wrong)
		}
	}
	end, err = os.OpenFile(fmt.Sprintf("/dev/pts/%d", number), os.O_RDWR|syscall.O_NOCTTY, 0)
	if err != nil {
		t.Skip(err)
	}
	t.Cleanup(func() { end.Close() })
	return end, other
}

// readUntil reads until a text has come.
func readUntil(t *testing.T, f *os.File, text string) (all string) {
	t.Helper()
	for b := make([]byte, 256); !strings.Contains(all, text); {
		n, err := f.Read(b)
		require.NoError(t, err)
		all += string(b[:n])
	}
	return all
}

// On a terminal long work is told of, first that it goes on and then how much is
// written, on one line that is cleared in the end.
func TestProgress(t *testing.T) {
	end, other := terminal(t)
	var written atomic.Int64
	stop := progress(end, &written)
	assert.Equal(t, "\rworking …", readUntil(t, other, "…")[:len("\rworking …")])
	written.Add(3 << 20)
	assert.NotContains(t, readUntil(t, other, "\rwriting … 3 MB"), "\n")
	stop()
	assert.True(t, strings.HasSuffix(readUntil(t, other, "\033[K"), "\r\033[K"))
}

// A command that lasts says so until it says something itself, or waits for what
// is typed.
func TestAttended(t *testing.T) {
	end, other := terminal(t)
	var out bytes.Buffer
	s, rest := withProgress(streams{strings.NewReader(""), &out, end})
	defer rest()
	assert.True(t, strings.HasPrefix(readUntil(t, other, "…"), "\rworking …"))
	fmt.Fprint(s.out, "found")
	assert.True(t, strings.HasSuffix(readUntil(t, other, "K"), "\r\033[K"), "the line is clear before anything is said")
	fmt.Fprint(s.err, "told")
	assert.Equal(t, "told", readUntil(t, other, "told"))
	assert.Equal(t, "found", out.String())
	assert.True(t, isTerminal(s.err))

	begun := time.Now()
	typed, keys := terminal(t)
	s, rest = withProgress(streams{typed, &out, end})
	defer rest()
	fmt.Fprintln(keys, "3 2 2")
	line := make([]byte, 6)
	_, err := io.ReadFull(s.in, line)
	require.NoError(t, err)
	fmt.Fprint(end, "next")
	if said := readUntil(t, other, "next"); time.Since(begun) < patience {
		assert.Equal(t, "next", said, "nothing stands before what is typed")
	}

	plain := streams{strings.NewReader(""), &out, &out}
	s, rest = withProgress(plain)
	defer rest()
	assert.Equal(t, plain, s)
}

// Short work is not told of, and nothing where nobody looks.
func TestNoProgress(t *testing.T) {
	end, other := terminal(t)
	begun := time.Now()
	progress(end, new(atomic.Int64))()
	fmt.Fprint(end, "next")
	if said := readUntil(t, other, "next"); time.Since(begun) < patience { // else the machine stood still
		assert.Equal(t, "next", said)
	}

	file, err := os.CreateTemp(t.TempDir(), "")
	require.NoError(t, err)
	defer file.Close()
	assert.False(t, isTerminal(file))
	assert.False(t, isTerminal(&bytes.Buffer{}))
	assert.True(t, isTerminal(end))
}
