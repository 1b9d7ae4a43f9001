package find

import (
	"fmt"
	"math/rand/v2"
	"runtime"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/score/beat"
	"tieover/score/processor"
)

// chance is a list of 2s and 3s without a pattern: the search may stop early
// nowhere but by itself.
func chance(t testing.TB, n int) *List {
	t.Helper()
	random := rand.New(rand.NewPCG(1, uint64(n)))
	items := make([]Item, n)
	for i := range items {
		items[i].Size = 2 + random.Int64N(2)
	}
	l, err := FromDurations(items, beat.Plain(beat.Of(1, 8)))
	require.NoError(t, err)
	return l
}

// nearly is a loop of m that breaks only at the end, so that every comparison
// goes far.
func nearly(t testing.TB, n, m int) *List {
	t.Helper()
	items := make([]Item, n)
	for i := range items {
		items[i].Size = 2 + int64(i%m)%2
	}
	items[n-2].Size = 7
	l, err := FromDurations(items, beat.Plain(beat.Of(1, 8)))
	require.NoError(t, err)
	return l
}

// BenchmarkSearch looks for everything in ever longer lists. times-exact is the
// processor's time as a ratio to the exact search alone, growth to half as many
// attacks.
func BenchmarkSearch(b *testing.B) {
	lists := []struct {
		name string
		of   func(n int) *List
	}{
		{"chance", func(n int) *List { return chance(b, n) }},
		{"nearly", func(n int) *List { return nearly(b, n, 16) }},
	}
	for _, kind := range lists {
		before := 0.0
		for _, n := range []int{1250, 2500, 5000, 10_000, 20_000} {
			l := kind.of(n)
			b.Run(fmt.Sprintf("%s-%d", kind.name, n), func(b *testing.B) {
				begun := processor.Time()
				l.findExact()
				exact := (processor.Time() - begun).Seconds()
				begun = processor.Time()
				for b.Loop() {
					Search(l, Options{Exceptions: 2})
				}
				each := (processor.Time() - begun).Seconds() / float64(b.N)
				b.ReportMetric(each, "cpu-s/op")
				b.ReportMetric(each/exact, "times-exact")
				if before > 0 {
					b.ReportMetric(each/before, "growth")
				}
				before = each
			})
		}
	}
}

// slipping is a long take of 3+3+2+2+2, 3 % of whose cycles slip.
func slipping(n int) (groups []int64, r *rand.Rand) {
	r = random(1, "slipping")
	for len(groups) < n {
		cycle := []int64{3, 3, 2, 2, 2}
		if r.IntN(100) < 3 {
			cycle[r.IntN(len(cycle))]++
		}
		groups = append(groups, cycle...)
	}
	return groups[:n], r
}

// BenchmarkTakes reads a take of each flaw that scatters by 20 ms. cpu-ms is the
// processor's time of one take.
func BenchmarkTakes(b *testing.B) {
	for _, given := range []bool{true, false} {
		name := map[bool]string{true: "tempo", false: "no-tempo"}[given]
		b.Run(name, func(b *testing.B) {
			begun := processor.Time()
			for b.Loop() {
				for _, f := range flaws {
					k := newTake(0, f, 0.02)
					if !given {
						k.tempo = 0
					}
					foundIn(k.onsets, k.tempo)
				}
			}
			b.ReportMetric((processor.Time()-begun).Seconds()*1000/float64(b.N*len(flaws)), "cpu-ms/take")
		})
	}
}

// BenchmarkImperfect reads long takes with slips, as numbers and as taps that
// scatter by 20 ms. cpu-s is the processor's time, MiB what was taken from the system
// in all, which only the first of a process tells rightly.
func BenchmarkImperfect(b *testing.B) {
	for _, n := range []int{1250, 5000, 20_000} {
		groups, r := slipping(n)
		items := make([]Item, n)
		for i, size := range groups {
			items[i].Size = size
		}
		onsets := tapGroups(r, groups, flaw{}, 0.02, 120)
		run := func(name string, read func()) {
			b.Run(fmt.Sprintf("%s-%d", name, n), func(b *testing.B) {
				begun := processor.Time()
				for b.Loop() {
					read()
				}
				b.ReportMetric((processor.Time()-begun).Seconds()/float64(b.N), "cpu-s/op")
				var m runtime.MemStats
				runtime.ReadMemStats(&m)
				b.ReportMetric(float64(m.Sys>>20), "MiB")
			})
		}
		run("numbers", func() { Search(listFrom(b, items), Options{}) })
		run("taps", func() {
			l, _, err := FromOnsets(onsets, TapOptions{Tempo: 120})
			require.NoError(b, err)
			Search(l, Options{})
		})
	}
}

// Twenty thousand attacks are searched in a few seconds even on a slow machine.
func TestSearchIsQuick(t *testing.T) {
	for name, l := range map[string]*List{"chance": chance(t, 20_000), "nearly": nearly(t, 20_000, 16)} {
		begun := processor.Time()
		Search(l, Options{Exceptions: 2})
		assert.Less(t, processor.Time()-begun, time.Minute, name)
	}
}
