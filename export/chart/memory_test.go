package chart_test

import (
	"fmt"
	"io"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tieover/export/chart"
	"tieover/score/spec/spectest"
)

// manyLayers is a section of 32 layers whose cycles all differ.
func manyLayers(bars int) string {
	var b strings.Builder
	fmt.Fprintf(&b, "title: Flood\nsection: F\ntempo: 120\nmeter: 4/4\nlength: %d bars\nlayers:\n", bars)
	for i := range 32 {
		fmt.Fprintf(&b, "  - name: Gate %d\n    groups: 3x%d+2+%d\n    pulse: 1/%d\n", i+1, 1+i%7, 1+i, 8<<(i%2))
	}
	return b.String()
}

// peak writes a chart and returns the most heap in use while it is written.
func peak(t *testing.T, bars int) uint64 {
	p := spectest.Read(t, manyLayers(bars))
	runtime.GC()
	var before runtime.MemStats
	runtime.ReadMemStats(&before)
	w := &watcher{}
	require.NoError(t, chart.Write(w, p, chart.Default()))
	require.Greater(t, w.bytes, bars*32*40, "every bar of every layer is there")
	return w.most - min(w.most, before.HeapAlloc)
}

// watcher counts bytes and, now and then, what lives on the heap.
type watcher struct {
	bytes, next int
	most        uint64
}

func (w *watcher) Write(p []byte) (int, error) {
	if w.bytes += len(p); w.bytes > w.next {
		w.next += 4 << 20
		runtime.GC()
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		w.most = max(w.most, m.HeapAlloc)
	}
	return len(p), nil
}

func TestMemoryDoesNotGrowWithTheLength(t *testing.T) {
	if testing.Short() {
		t.Skip("writes 2,000 bars of 32 layers")
	}
	short, long := peak(t, 200), peak(t, 2000)
	t.Logf("%d KiB for 200 bars, %d KiB for 2,000", short>>10, long>>10)
	require.Less(t, long, 2*short+(4<<20), "ten times the bars, the same memory")
}

func BenchmarkWrite(b *testing.B) {
	p := spectest.Read(b, manyLayers(2000))
	for b.Loop() {
		_ = chart.Write(io.Discard, p, chart.Default())
	}
}
