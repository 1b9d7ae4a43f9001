//go:build darwin || dragonfly || freebsd || linux || netbsd || openbsd

package files

import (
	"os"
	"syscall"
)

// lockFolder keeps other tieovers from giving files in the folder their names
// until unlock is called. Where a file system knows no locks there is none.
func lockFolder(dir string) (unlock func()) {
	f, err := os.Open(dir)
	if err != nil {
		return func() {}
	}
	_ = syscall.Flock(int(f.Fd()), syscall.LOCK_EX)
	return func() { f.Close() }
}
