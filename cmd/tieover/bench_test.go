package main

import (
	"bytes"
	"context"
	"encoding/xml"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"tieover/export/chart"
	"tieover/export/midi"
	"tieover/export/musicxml"
	"tieover/layout"
	"tieover/score"
	"tieover/score/find"
	"tieover/score/heard"
	heardxml "tieover/score/heard/musicxml"
	"tieover/score/processor"
	"tieover/score/verify"
)

// canal is a spec of so many layers and bars, whose cycles are 5, 6, 7 …
// eighths long.
func canal(layers, bars int) string {
	var b strings.Builder
	fmt.Fprintf(&b, "title: Long Canal\nmeter: 4/4\nlength: %d bars\nlayers:\n", bars)
	for i := range layers {
		fmt.Fprintf(&b, "  - {name: Gate %d, instrument: marimba, groups: %d+3, pitches: A4 C5}\n", i+1, i+2)
	}
	return b.String()
}

func fromText(b testing.TB, text string) *score.Piece {
	b.Helper()
	p, err := load(streams{in: strings.NewReader(text), err: io.Discard}, []string{"-"})
	require.NoError(b, err)
	return p
}

// attacks is how many attacks sound in the piece.
func attacks(p *score.Piece) (n int) {
	for _, s := range p.Sections {
		for i := range s.Layers {
			for range s.Attacks(i) {
				n++
			}
		}
	}
	return n
}

// measured runs f again and again and reports, by the second of processor time,
// millions of attacks and, if it is told, of bytes.
func measured(b *testing.B, attacks, bytes int, f func()) {
	b.Helper()
	runtime.GC()
	before := processor.Time()
	for b.Loop() {
		f()
	}
	each := (processor.Time() - before).Seconds() / float64(b.N) * 1e6
	b.ReportMetric(float64(attacks)/each, "Mattacks/cpu-s")
	if bytes > 0 {
		b.ReportMetric(float64(bytes)/each, "MB/cpu-s")
	}
}

// BenchmarkExport goes from the spec's text to each format, beside what bounds
// it: walking the attacks alone, and copying the finished bytes; and beside the
// plainest encoder of the format, which for MusicXML is in its own package.
func BenchmarkExport(b *testing.B) {
	text := canal(8, 2000)
	n := attacks(fromText(b, text))
	for _, format := range []struct {
		name  string
		write func(io.Writer, *score.Piece) error
		plain func(io.Writer, *score.Piece) error
	}{
		{"musicxml", func(w io.Writer, p *score.Piece) error {
			sheet, problems := layout.Lay(p, layout.Options{})
			if len(problems) > 0 {
				return problems.Err()
			}
			return musicxml.Write(w, sheet, musicxml.Options{})
		}, nil},
		{"chart", func(w io.Writer, p *score.Piece) error { return chart.Write(w, p, chart.Default()) }, plainChart},
		{"midi", func(w io.Writer, p *score.Piece) error { return midi.Write(w, p, midi.Options{}) }, plainMIDI},
	} {
		var whole bytes.Buffer
		if format.plain != nil {
			require.NoError(b, format.plain(&whole, fromText(b, text)))
			b.Run(format.name+"/plain", func(b *testing.B) {
				measured(b, n, whole.Len(), func() { require.NoError(b, format.plain(io.Discard, fromText(b, text))) })
			})
		}
		whole.Reset()
		require.NoError(b, format.write(&whole, fromText(b, text)))
		b.Run(format.name+"/from-spec", func(b *testing.B) {
			measured(b, n, whole.Len(), func() { require.NoError(b, format.write(io.Discard, fromText(b, text))) })
		})
		b.Run(format.name+"/copy", func(b *testing.B) {
			out := filepath.Join(b.TempDir(), "out")
			measured(b, n, whole.Len(), func() { require.NoError(b, os.WriteFile(out, whole.Bytes(), 0o600)) })
		})
	}
	b.Run("attacks-alone", func(b *testing.B) {
		measured(b, n, 0, func() { attacks(fromText(b, text)) })
	})
}

// BenchmarkBars draws bars 1 to 3 of longer and longer sections; beside it what
// bounds it, the same chart of a section that has no more.
func BenchmarkBars(b *testing.B) {
	opt := chart.Default()
	opt.From, opt.To = 1, 3
	for _, bars := range []int{3, 600, 60_000, 600_000} {
		p := fromText(b, canal(8, bars))
		b.Run(fmt.Sprintf("%dbars", bars), func(b *testing.B) {
			measured(b, attacks(fromText(b, canal(8, 3))), 0, func() { require.NoError(b, chart.Write(io.Discard, p, opt)) })
		})
	}
}

// BenchmarkBuild builds everything at growing lengths and numbers of layers, in
// a process of its own. rss-MiB is the most memory that it had.
func BenchmarkBuild(b *testing.B) {
	for _, size := range []struct{ layers, bars int }{
		{1, 1000}, {8, 1000}, {9, 1000}, {8, 1001}, {8, 2000}, {16, 1000}, {8, 10_000}, {8, 100_000},
	} {
		b.Run(fmt.Sprintf("%dlayers/%dbars", size.layers, size.bars), func(b *testing.B) {
			if testing.Short() && size.bars > 10_000 {
				b.Skip("writes a gigabyte and a half")
			}
			dir := b.TempDir()
			spec := filepath.Join(dir, "canal.yaml")
			require.NoError(b, os.WriteFile(spec, []byte(canal(size.layers, size.bars)), 0o600))
			most, processor := 0.0, 0.0
			for b.Loop() {
				c := process("build", "-o", filepath.Join(dir, "out"), "--only", "musicxml,chart,report,json", spec)
				kib, _ := peakOf(b, c)
				most = max(most, float64(kib)/1024)
				processor += (c.ProcessState.UserTime() + c.ProcessState.SystemTime()).Seconds()
			}
			b.ReportMetric(most, "rss-MiB")
			b.ReportMetric(processor/float64(b.N), "cpu-s/op")
		})
	}
}

// BenchmarkFind looks for the pattern of one part, by the number of bars, and of all
// parts of a file; beside that what bounds it, reading the file.
func BenchmarkFind(b *testing.B) {
	for _, bars := range []int{250, 500, 1000, 2000} {
		read, n := readBack(b, bars)
		part := read.Parts[0]
		b.Run(fmt.Sprintf("part/%dbars", bars), func(b *testing.B) {
			measured(b, len(part.Attacks), 0, func() {
				list, err := find.FromAttacks(part.Attacks, part.Attacks[0].Onset.Sub(part.Attacks[0].Onset), part.End())
				require.NoError(b, err)
				require.NotEmpty(b, find.Search(list, find.Options{}))
			})
		})
		name, data := filepath.Join(b.TempDir(), "canal.musicxml"), scoreOf(b, bars)
		require.NoError(b, os.WriteFile(name, data, 0o600))
		b.Run(fmt.Sprintf("file/%dbars", bars), func(b *testing.B) {
			measured(b, n, len(data), func() {
				require.Equal(b, done, run([]string{"find", "--all", name}, streams{strings.NewReader(""), io.Discard, io.Discard}))
			})
		})
		b.Run(fmt.Sprintf("file-alone/%dbars", bars), func(b *testing.B) {
			measured(b, n, len(data), func() {
				_, err := heardxml.Read(context.Background(), bytes.NewReader(data))
				require.NoError(b, err)
			})
		})
	}
}

// BenchmarkVerify compares a score of eight parts with its spec, by the number
// of bars; beside it reading the file, and what would bound that if equal
// children of bars were not read once: the library's tokens of the file alone.
func BenchmarkVerify(b *testing.B) {
	for _, bars := range []int{250, 500, 1000} {
		p := fromText(b, canal(8, bars))
		read, n := readBack(b, bars)
		b.Run(fmt.Sprintf("compare/%dbars", bars), func(b *testing.B) {
			measured(b, n, 0, func() {
				r, err := verify.Compare(p, read, verify.Options{})
				require.NoError(b, err)
				require.Empty(b, r.Differences)
			})
		})
		data := scoreOf(b, bars)
		b.Run(fmt.Sprintf("read/%dbars", bars), func(b *testing.B) {
			measured(b, n, len(data), func() {
				_, err := heardxml.Read(context.Background(), bytes.NewReader(data))
				require.NoError(b, err)
			})
		})
		b.Run(fmt.Sprintf("tokens-alone/%dbars", bars), func(b *testing.B) {
			measured(b, n, len(data), func() { tokensAlone(b, data) })
		})
	}
}

// tokensAlone reads a file as what XML is made of.
func tokensAlone(b *testing.B, data []byte) {
	for tokens := xml.NewDecoder(bytes.NewReader(data)); ; {
		if _, err := tokens.RawToken(); err != nil {
			require.ErrorIs(b, err, io.EOF)
			return
		}
	}
}

// scoreOf is the MusicXML of eight layers.
func scoreOf(b *testing.B, bars int) []byte {
	b.Helper()
	sheet, problems := layout.Lay(fromText(b, canal(8, bars)), layout.Options{})
	require.Empty(b, problems)
	var out bytes.Buffer
	require.NoError(b, musicxml.Write(&out, sheet, musicxml.Options{}))
	return out.Bytes()
}

// readBack reads that again and counts its attacks.
func readBack(b *testing.B, bars int) (*heard.Score, int) {
	b.Helper()
	read, err := heardxml.Read(context.Background(), bytes.NewReader(scoreOf(b, bars)))
	require.NoError(b, err)
	n := 0
	for _, p := range read.Parts {
		n += len(p.Attacks)
	}
	return read, n
}
