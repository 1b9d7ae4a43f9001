//go:build !(darwin || dragonfly || freebsd || linux || netbsd || openbsd)

package files

// lockFolder does nothing on systems that have no advisory lock on folders.
func lockFolder(string) (unlock func()) { return func() {} }
