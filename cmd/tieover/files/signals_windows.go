package files

import (
	"os"
)

// interrupts are the signals that stop a build.
func interrupts() []os.Signal { return []os.Signal{os.Interrupt} }
