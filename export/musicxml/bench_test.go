package musicxml

import (
	"bufio"
	"bytes"
	"fmt"
	"io"
	"runtime"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/layout/sheet"
	"tieover/score/beat"
	"tieover/score/processor"
)

// benchSheet is what the figures are measured on: eight parts that hold and
// fill cycles of 5 to 13 eighths in 4/4, each with the marks of its cycles.
// With different set, no bar is like another.
func benchSheet(bars int, different bool) *sheet.Sheet {
	s := &sheet.Sheet{Title: "Long Reach", Grid: testGrid, Bars: bars}
	for p, cycle := range []int{5, 6, 7, 9, 10, 11, 12, 13} {
		list := make([]sheet.Bar, bars)
		known := map[int]*sheet.Measure{}
		for i := range list {
			phase := i * 8 % cycle
			m := known[phase]
			if m == nil || different {
				m = cycleBar(cycle, phase, p%2 == 0, i)
				known[phase] = m
			}
			list[i] = sheet.Bar{Measure: m}
			for k, e := range m.Voices[0].Events {
				if (int(e.At())/eighth+phase)%cycle == 0 {
					list[i].Marks = append(list[i].Marks,
						numbered(sheet.CycleNumber, k, (8*i+phase)/cycle+1), mark(sheet.CycleStart, k, ""))
				}
			}
		}
		list[0].NewMeter, list[0].NewKey = true, true
		list[bars-1].Barline = sheet.Final
		s.Parts = append(s.Parts, part(fmt.Sprintf("Layer %d", p+1), "L.", "marimba", list...))
	}
	return s
}

// cycleBar is one bar of a layer in groups of two and three: filled with
// beamed eighths, or held.
func cycleBar(cycle, phase int, held bool, seed int) *sheet.Measure {
	var groups []any
	for at := 0; at < 8; {
		size := min(2+(at+phase)%cycle%2, 8-at)
		pitch := func(k int) sheet.Head {
			return sheet.Head{Step: "CDEFGAB"[(at+phase+k+seed)%7], Octave: 4}
		}
		switch {
		case size == 1:
			groups = append(groups, note(eighth_, pitch(0)))
		case held && size == 2:
			groups = append(groups, note(quarter_, pitch(0)))
		case held:
			groups = append(groups, note(dotted(quarter_), pitch(0)))
		default:
			var heads []sheet.Head
			for k := range size {
				heads = append(heads, pitch(k))
			}
			groups = append(groups, run(eighth_, heads...))
		}
		at += size
	}
	return measure(common4, plainVoice(groups...))
}

// notesIn counts the note elements of a document.
func notesIn(doc []byte) int { return bytes.Count(doc, []byte("<note>")) }

// throughBuffer hands a writer behind 64 KiB to f and discards what comes out.
func throughBuffer(f func(io.Writer) error) error {
	out := bufio.NewWriterSize(io.Discard, 1<<16)
	if err := f(out); err != nil {
		return err
	}
	return out.Flush()
}

// copyBars writes a finished document bar by bar: the most that any writer
// could do.
func copyBars(w io.Writer, bars [][]byte) error {
	for _, b := range bars {
		if _, err := w.Write(b); err != nil {
			return err
		}
	}
	return nil
}

func barsOfDocument(doc []byte) [][]byte { return bytes.SplitAfter(doc, []byte("</measure>")) }

func BenchmarkWrite(b *testing.B) {
	for _, different := range []bool{false, true} {
		name := map[bool]string{false: "looping", true: "nothing-repeats"}[different]
		laid := benchSheet(map[bool]int{false: 5000, true: 500}[different], different)
		doc := writtenDoc(b, laid, Options{})
		bars := barsOfDocument(doc)
		for _, way := range []struct {
			name  string
			write func(io.Writer) error
		}{
			{"cached", func(w io.Writer) error { return Write(w, laid, Options{}) }},
			{"bar-by-bar", func(w io.Writer) error { return writeBarwise(w, laid, Options{}) }},
			{"one-tree", func(w io.Writer) error { return writePlain(w, laid, Options{}) }},
			{"copy", func(w io.Writer) error { return copyBars(w, bars) }},
			{"mxl", func(w io.Writer) error { return WriteCompressed(w, laid, Options{}) }},
		} {
			b.Run(name+"/"+way.name, func(b *testing.B) {
				b.SetBytes(int64(len(doc)))
				b.ReportAllocs()
				runtime.GC()
				before := processor.Time()
				for b.Loop() {
					require.NoError(b, throughBuffer(way.write))
				}
				b.ReportMetric(float64(notesIn(doc))*float64(b.N)/(processor.Time()-before).Seconds()/1e6, "Mnotes/cpu-s")
			})
		}
	}
}

// Memory does not grow with the number of bars: a part's walk makes bars as it
// goes, and what is kept is bounded.
func TestWriteAllocatesOnceForWhatRepeats(t *testing.T) {
	walk := func(bars int) *sheet.Sheet {
		different := []*sheet.Measure{cycleBar(5, 0, false, 0), cycleBar(5, 3, false, 0)}
		p := sheet.NewPart(towpath().Parts[0], func(yield func(*sheet.Bar) bool) {
			b := sheet.Bar{NewMeter: true, NewKey: true}
			for i := range bars {
				b.Number, b.Start, b.Measure = i+1, beat.Time(i*240), different[i%2]
				b.Marks = append(b.Marks[:0], numbered(sheet.CycleNumber, 0, i))
				if !yield(&b) {
					return
				}
				b.NewMeter, b.NewKey = false, false
			}
		})
		return &sheet.Sheet{Title: "T", Grid: testGrid, Parts: []sheet.Part{p}}
	}
	short, long := walk(100), walk(50_000)
	allocations := func(s *sheet.Sheet) float64 {
		return testing.AllocsPerRun(1, func() { require.NoError(t, Write(io.Discard, s, Options{})) })
	}
	assert.InDelta(t, allocations(short), allocations(long), 50)
}
