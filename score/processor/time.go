// Package processor measures work, for tests and benchmarks: how much of the
// processors' time it takes, which does not depend on what else the machine does.
package processor

import "time"

// Time returns how long processors have worked for this program so far, all of
// them added up; where the system does not tell, how long the program has run.
// Work costs the difference of two calls.
func Time() time.Duration { return used() }
