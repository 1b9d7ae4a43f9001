//go:build unix

package musicxml

import (
	"io"
	"runtime"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// spent returns the processor time that one of several equal runs takes, the
// smallest of three tries; other programs on the machine do not count.
func spent(t *testing.T, runs int, f func(io.Writer) error) time.Duration {
	t.Helper()
	best := time.Hour
	for range 3 {
		runtime.GC()
		before := processorTime(t)
		for range runs {
			require.NoError(t, throughBuffer(f))
		}
		best = min(best, (processorTime(t)-before)/time.Duration(runs))
	}
	return best
}

func processorTime(t *testing.T) time.Duration {
	t.Helper()
	var u syscall.Rusage
	require.NoError(t, syscall.Getrusage(syscall.RUSAGE_SELF, &u))
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}

// Equal bars are encoded once: at least ten times as fast as the same encoder
// without memory, at most five times as slow as copying the finished bytes, and
// hardly slower when nothing repeats.
func TestEqualBarsAreWrittenFast(t *testing.T) {
	if testing.Short() || raceEnabled {
		t.Skip("measures time")
	}
	looping := benchSheet(3000, false)
	bars := barsOfDocument(writtenDoc(t, looping, Options{}))
	cached := spent(t, 10, func(w io.Writer) error { return Write(w, looping, Options{}) })
	copied := spent(t, 30, func(w io.Writer) error { return copyBars(w, bars) })
	barwise := spent(t, 1, func(w io.Writer) error { return writeBarwise(w, looping, Options{}) })
	t.Logf("cached %v, bar by bar %v (%.0f times), copied %v (1/%.1f)", cached, barwise,
		float64(barwise)/float64(cached), copied, float64(cached)/float64(copied))
	assert.Greater(t, float64(barwise)/float64(cached), 10.0)
	assert.Less(t, float64(cached)/float64(copied), 5.0)

	different := benchSheet(200, true)
	cached = spent(t, 3, func(w io.Writer) error { return Write(w, different, Options{}) })
	barwise = spent(t, 3, func(w io.Writer) error { return writeBarwise(w, different, Options{}) })
	t.Logf("nothing repeats: cached %v, bar by bar %v", cached, barwise)
	assert.Greater(t, float64(barwise)/float64(cached), 0.8)
}
