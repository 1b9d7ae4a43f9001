package main

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"tieover/export/chart"
	"tieover/score"
	heardxml "tieover/score/heard/musicxml"
	"tieover/score/processor"
	"tieover/score/verify"
)

// freeLines is a spec of lines that never repeat.
func freeLines(layers, notes int) string {
	var b strings.Builder
	fmt.Fprintf(&b, "title: Free Quay\nmeter: 4/4\npulse: 1/16\nlength: %d bars\nlayers:\n", notes/8)
	n := uint32(1)
	for i := range layers {
		var line []string
		for range notes {
			n = n*1664525 + 1013904223 // a linear congruential generator (common practice)
			line = append(line, fmt.Sprintf("%c%d %d", "ABCDEFG"[n>>8%7], 4+n>>16%2, 1+n>>24%5))
		}
		fmt.Fprintf(&b, "  - {name: Quay %d, instrument: oboe, line: %q}\n", i+1, strings.Join(line, ", "))
	}
	return b.String()
}

// changes is a spec with so many changes of meter.
func changes(n int) string {
	var b strings.Builder
	fmt.Fprintf(&b, "title: Many Meters\nmeter: 4/4\npulse: 1/8\nlength: %d bars\nplan:\n", 2*n+2)
	for i := range n {
		fmt.Fprintf(&b, "  - {at: bar %d, meter: %s}\n", 2*i+2, []string{"3/4", "7/8", "5/8", "6/8", "4/4"}[i%5])
	}
	b.WriteString("layers:\n  - {name: Gate 1, instrument: marimba, groups: 2+3, pitches: A4 C5}\n  - {name: Gate 2, instrument: marimba, groups: 3+3, pitches: A4 C5}\n")
	return b.String()
}

// BenchmarkRatios measures what is to be fast beside what bounds it, by turns in
// one run. ratio is how many times the bound's processor time it takes, of one
// unit of work each. `.ci/bench` gives medians, and compares with another commit.
func BenchmarkRatios(b *testing.B) {
	write := func(name, text string) string {
		at := filepath.Join(b.TempDir(), name+".yaml")
		require.NoError(b, os.WriteFile(at, []byte(text), 0o600))
		return at
	}
	build := func(to, only, spec string, flags ...string) func() {
		return func() {
			out, err := os.Create(filepath.Join(b.TempDir(), "out"))
			require.NoError(b, err)
			var messages bytes.Buffer
			code := run(append([]string{"build", spec, "--force", "--only", only, "-o", to}, flags...), streams{strings.NewReader(""), out, &messages})
			require.NoError(b, out.Close())
			require.Zero(b, code, messages.String())
		}
	}
	drawn := func(bars int) func() {
		p, opt := fromText(b, canal(8, bars)), chart.Default()
		opt.From, opt.To = 1, 3
		return func() { require.NoError(b, chart.Write(io.Discard, p, opt)) }
	}
	long, free, mid := write("long", canal(8, 10_000)), write("free", freeLines(8, 4000)), write("mid", canal(8, 2000))
	short, folder := canal(8, 2000), filepath.Join(b.TempDir(), "built")
	var outside time.Duration // of processes
	alone := func(to string) func() {
		return func() {
			out, err := os.Create(filepath.Join(b.TempDir(), "out"))
			require.NoError(b, err)
			c := process("build", long, "--force", "--only", "musicxml", "-o", to)
			c.Stdout = out
			require.NoError(b, c.Run())
			require.NoError(b, out.Close())
			outside += c.ProcessState.UserTime() + c.ProcessState.SystemTime()
		}
	}
	charted := func(write func(io.Writer, *score.Piece) error) (work func(), bytes int) {
		var whole strings.Builder
		require.NoError(b, write(&whole, fromText(b, short)))
		return func() { require.NoError(b, write(io.Discard, fromText(b, short))) }, whole.Len()
	}
	ours, ourBytes := charted(func(w io.Writer, p *score.Piece) error { return chart.Write(w, p, chart.Default()) })
	plain, plainBytes := charted(plainChart)
	heard, p1000 := scoreOf(b, 1000), fromText(b, canal(8, 1000))
	file := filepath.Join(b.TempDir(), "canal.musicxml")
	require.NoError(b, os.WriteFile(file, heard, 0o600))
	reading := func() {
		_, err := heardxml.Read(context.Background(), bytes.NewReader(heard))
		require.NoError(b, err)
	}
	for _, row := range []struct {
		name         string
		cost, bound  func()
		units, whole int // of work: how many the one and the other do
	}{
		{"whole-build/score-alone", build(folder, "musicxml", long), build("-", "musicxml", long), 1, 1},
		{"whole-build/score-alone-as-processes", alone(folder), alone("-"), 1, 1},
		{"beams-over-barlines/without", build(folder, "musicxml", mid, "--beam-over-barlines"), build(folder, "musicxml", mid), 1, 1},
		{"free-lines/loops", build("-", "musicxml", free), build("-", "musicxml", long), 8 * 4000, attacks(fromText(b, canal(8, 10_000)))},
		{"4000-meters/500", build(folder, "musicxml,chart,report,json", write("many", changes(4000))), build(folder, "musicxml,chart,report,json", write("few", changes(500))), 1, 1},
		{"byte-of-a-chart/of-the-plainest", ours, plain, ourBytes, plainBytes},
		{"three-bars-of-600000/of-3", drawn(600_000), drawn(3), 1, 1},
		{"find-in-1000-bars/reading-them", func() {
			require.Equal(b, done, run([]string{"find", "--all", file}, streams{strings.NewReader(""), io.Discard, io.Discard}))
		}, reading, 1, 1},
		{"verify-of-1000-bars/their-tokens", func() {
			read, err := heardxml.Read(context.Background(), bytes.NewReader(heard))
			require.NoError(b, err)
			r, err := verify.Compare(p1000, read, verify.Options{})
			require.NoError(b, err)
			require.Empty(b, r.Differences)
		}, func() { tokensAlone(b, heard) }, 1, 1},
	} {
		b.Run(row.name, func(b *testing.B) {
			var spent [2]time.Duration
			for b.Loop() {
				for i, f := range []func(){row.cost, row.bound} {
					before := processor.Time() + outside
					f()
					spent[i] += processor.Time() + outside - before
				}
			}
			cost, bound := spent[0].Seconds()/float64(row.units), spent[1].Seconds()/float64(row.whole)
			b.ReportMetric(cost/bound, "ratio")
			b.ReportMetric(1000*spent[0].Seconds()/float64(b.N), "cpu-ms/op")
		})
	}
}
