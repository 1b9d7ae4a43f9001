//go:build unix

package files

import (
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
