//go:build unix

package main

import (
	"io/fs"
	"sync"
	"syscall"
)

// umask returns the permission bits that new files of this process lack.
var umask = sync.OnceValue(func() fs.FileMode {
	old := syscall.Umask(0)
	syscall.Umask(old)
	return fs.FileMode(old)
})
