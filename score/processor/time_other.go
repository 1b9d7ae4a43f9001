//go:build !unix

package processor

import "time"

var started = time.Now()

func used() time.Duration { return time.Since(started) }
