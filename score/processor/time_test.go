package processor

import (
	"runtime"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
)

// Work costs time, waiting none.
func TestTime(t *testing.T) {
	begun := Time()
	for Time()-begun < 20*time.Millisecond { // ends only if work is counted
	}
	if runtime.GOOS == "windows" {
		return
	}
	begun = Time()
	time.Sleep(time.Second)
	assert.Less(t, Time()-begun, 500*time.Millisecond)
}
