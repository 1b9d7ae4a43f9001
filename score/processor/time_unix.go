//go:build unix

package processor

import (
	"fmt"
	"syscall"
	"time"
)

func used() time.Duration {
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		panic(fmt.Sprintf("processor: getrusage: %v", err)) // it fails on a wrong argument only
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}
