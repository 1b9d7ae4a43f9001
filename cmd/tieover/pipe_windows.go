package main

import (
	"errors"
	"syscall"
)

// outliveReaders has nothing to do: no signal tells that a reader has gone.
func outliveReaders() {}

// errNoData is what Windows says of a pipe that is being closed.
const errNoData syscall.Errno = 232

// isClosedPipe reports whether the reader of standard output has gone.
func isClosedPipe(err error) bool {
	return errors.Is(err, syscall.ERROR_BROKEN_PIPE) || errors.Is(err, errNoData)
}
