//go:build !unix

package main

import "os"

// interrupts are the signals that stop a build.
var interrupts = []os.Signal{os.Interrupt}

// isClosedPipe reports whether the reader of standard output has gone.
func isClosedPipe(error) bool { return false }
