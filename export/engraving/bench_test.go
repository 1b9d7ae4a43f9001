package engraving

import (
	"io"
	"runtime"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/export/musicxml"
	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/beat"
	"tieover/score/instrument"
	"tieover/score/processor"
)

// longSheet is what the figures are measured on: eight parts of two-note and
// three-note groups in 4/4. With different set, no bar is like another, so that
// the MusicXML writer remembers nothing.
func longSheet(bars int, different bool) *sheet.Sheet {
	ins, _ := instrument.Find("marimba")
	s := &sheet.Sheet{Title: "Long Reach", Grid: 16, Bars: bars}
	for p := range 8 {
		same := map[int]*sheet.Measure{}
		at := func(i int) *sheet.Measure {
			phase := i % (5 + p)
			if same[phase] == nil && !different {
				same[phase] = groupsBar(phase+p, 0)
			}
			if different {
				return groupsBar(phase+p, i)
			}
			return same[phase]
		}
		walk := func(yield func(*sheet.Bar) bool) {
			for i := range bars {
				b := sheet.Bar{Number: i + 1, Start: beat.Time(16 * i), Measure: at(i), NewMeter: i == 0, NewKey: i == 0,
					Marks: []sheet.Mark{{Kind: sheet.CycleNumber, N: i + 1}, {Kind: sheet.CycleStart}}}
				if i == bars-1 {
					b.Barline = sheet.Final
				}
				if !yield(&b) {
					return
				}
			}
		}
		s.Parts = append(s.Parts, sheet.NewPart(sheet.Part{Name: "Layer", Short: "L.", Instrument: ins, Layers: []string{"Layer"},
			Staves: []sheet.Staff{{Clef: ins.Clef, Lines: 5}}}, walk))
	}
	return s
}

// groupsBar is 3+3+2 or 3+2+3 eighths under beams; pitches go on with the seed.
func groupsBar(phase, seed int) *sheet.Measure {
	m := &sheet.Measure{Signature: score.PlainSignature(4, 4), Key: score.Key{None: true}, Length: 16}
	v := sheet.Voice{Staff: 1, Number: 1, Layer: "Layer"}
	at := beat.Time(0)
	for _, size := range [][]int{{3, 3, 2}, {3, 2, 3}, {2, 3, 3}}[phase%3] {
		for k := range size {
			b := sheet.BeamContinue
			if k == 0 {
				b = sheet.BeamBegin
			} else if k == size-1 {
				b = sheet.BeamEnd
			}
			h := sheet.Head{Step: "CDEFGAB"[(int(at)+phase+seed)%7], Octave: 4}
			v.Events = append(v.Events, &sheet.Note{Start: at, Length: 2, Value: sheet.Value{Power: 3}, Heads: []sheet.Head{h}, Beams: []sheet.Beam{b}})
			at += 2
		}
	}
	m.Voices = []sheet.Voice{v}
	return m
}

func draw(t testing.TB, s *sheet.Sheet) {
	for sys := range Systems(s, Options{}) {
		_, err := io.Discard.Write(sys.Body)
		require.NoError(t, err)
	}
}

// The bar of a drawing costs at most three times what the MusicXML writer takes
// for one that it does not remember: compare the two rows of nothing-repeats.
func BenchmarkDraw(b *testing.B) {
	const bars = 250
	for _, different := range []bool{true, false} {
		name := map[bool]string{true: "nothing-repeats", false: "looping"}[different]
		s := longSheet(bars, different)
		for _, way := range []struct {
			name string
			run  func()
		}{
			{"drawing", func() { draw(b, s) }},
			{"musicxml", func() { require.NoError(b, musicxml.Write(io.Discard, s, musicxml.Options{})) }},
		} {
			b.Run(name+"/"+way.name, func(b *testing.B) {
				runtime.GC()
				before := processor.Time()
				for b.Loop() {
					way.run()
				}
				b.ReportMetric(float64((processor.Time()-before).Microseconds())/float64(b.N)/(8*bars), "cpu-µs/staff-bar")
			})
		}
	}
}

// Memory does not grow with the bars: what is alive after many systems is what
// is alive after few.
func TestMemoryDoesNotGrowWithTheBars(t *testing.T) {
	alive := func(bars int) (most uint64) {
		n := 0
		for range Systems(longSheet(bars, true), Options{}) {
			if n++; n%20 == 0 {
				runtime.GC()
				var m runtime.MemStats
				runtime.ReadMemStats(&m)
				most = max(most, m.HeapAlloc)
			}
		}
		return most
	}
	short, long := alive(300), alive(1500)
	assert.Less(t, long, short+8<<20, "bytes alive: %d, then %d", short, long)
}
