//go:build unix

package main

import (
	"errors"
	"os/signal"
	"syscall"
)

// outliveReaders lets the program go on, and end by itself, when the reader of
// its output goes away.
func outliveReaders() { signal.Ignore(syscall.SIGPIPE) }

// isClosedPipe reports whether the reader of standard output has gone.
func isClosedPipe(err error) bool { return errors.Is(err, syscall.EPIPE) }
