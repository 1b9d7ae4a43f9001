//go:build unix

package main

import (
	"errors"
	"os"
	"os/signal"
	"syscall"
)

// interrupts are the signals that stop a build. Who starts the program so that
// it ignores one, as nohup does, means that.
func interrupts() (heeded []os.Signal) {
	for _, s := range []os.Signal{os.Interrupt, syscall.SIGTERM, syscall.SIGHUP} {
		if !signal.Ignored(s) {
			heeded = append(heeded, s)
		}
	}
	return heeded
}

// outliveReaders lets the program go on, and end by itself, when the reader of
// its output goes away.
func outliveReaders() { signal.Ignore(syscall.SIGPIPE) }

// isClosedPipe reports whether the reader of standard output has gone.
func isClosedPipe(err error) bool { return errors.Is(err, syscall.EPIPE) }
