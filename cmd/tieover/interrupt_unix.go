//go:build unix

package main

import (
	"errors"
	"os"
	"syscall"
)

// interrupts are the signals that stop a build.
var interrupts = []os.Signal{os.Interrupt, syscall.SIGTERM}

// isClosedPipe reports whether the reader of standard output has gone.
func isClosedPipe(err error) bool { return errors.Is(err, syscall.EPIPE) }
