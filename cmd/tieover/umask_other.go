//go:build !unix

package main

import "io/fs"

// umask returns the permission bits that new files of this process lack.
func umask() fs.FileMode { return 0 }
