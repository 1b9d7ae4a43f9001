package main

import (
	"errors"
	"os"
	"syscall"
)

// interrupts are the signals that stop a build.
var interrupts = []os.Signal{os.Interrupt}

// errNoData is what Windows says of a pipe that is being closed.
const errNoData syscall.Errno = 232

// isClosedPipe reports whether the reader of standard output has gone.
func isClosedPipe(err error) bool {
	return errors.Is(err, syscall.ERROR_BROKEN_PIPE) || errors.Is(err, errNoData)
}
