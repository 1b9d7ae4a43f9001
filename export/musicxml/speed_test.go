package musicxml

import (
	"io"
	"runtime"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"tieover/layout/sheet"
	"tieover/score/processor"
)

// spent returns the processor time that one of several equal runs takes.
func spent(t *testing.T, runs int, f func(io.Writer) error) time.Duration {
	t.Helper()
	runtime.GC()
	before := processor.Time()
	for range runs {
		require.NoError(t, throughBuffer(f))
	}
	return max(1, (processor.Time()-before)/time.Duration(runs))
}

// reaches measures a ratio until it is large enough. A single measurement may be
// spoiled by whatever shares the processors and their caches, not all of many.
func reaches(t *testing.T, what string, enough float64, ratio func() float64) {
	t.Helper()
	best := 0.0
	for try := 1; try <= 20; try++ {
		if best = max(best, ratio()); best >= enough {
			t.Logf("%s: %.2f, measured %d times", what, best, try)
			return
		}
	}
	t.Errorf("%s: %.2f, should be %v", what, best, enough)
}

// Equal bars are encoded once: at least ten times as fast as the same encoder
// without memory, at most five times as slow as copying the finished bytes, and
// hardly slower when nothing repeats.
func TestEqualBarsAreWrittenFast(t *testing.T) {
	if testing.Short() || raceEnabled {
		t.Skip("measures time")
	}
	cached := func(s *sheet.Sheet, runs int) float64 {
		return float64(spent(t, runs, func(w io.Writer) error { return Write(w, s, Options{}) }))
	}
	barwise := func(s *sheet.Sheet, runs int) float64 {
		return float64(spent(t, runs, func(w io.Writer) error { return writeBarwise(w, s, Options{}) }))
	}
	looping, different := benchSheet(3000, false), benchSheet(200, true)
	bars := barsOfDocument(writtenDoc(t, looping, Options{}))
	reaches(t, "bar by bar against cached", 10, func() float64 { return barwise(looping, 1) / cached(looping, 10) })
	reaches(t, "copied against cached", 1.0/5, func() float64 {
		return float64(spent(t, 30, func(w io.Writer) error { return copyBars(w, bars) })) / cached(looping, 10)
	})
	reaches(t, "bar by bar against cached where nothing repeats", 0.8, func() float64 { return barwise(different, 3) / cached(different, 3) })
}
