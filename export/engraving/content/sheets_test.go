package content

import (
	"iter"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"tieover/export/engraving/pen"
	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/beat"
	"tieover/score/instrument"
)

// Sheets made by hand. A quarter has 24 ticks.
const (
	grid    beat.Grid = 96
	quarter beat.Time = 24
)

// head reads a head as it is written: "C5", "F#4" with its sign, "B(b)3" in parentheses.
func head(name string) sheet.Head {
	h := sheet.Head{Step: name[0], Octave: int8(name[len(name)-1] - '0')}
	signs := map[string]sheet.Accidental{"": sheet.NoSign, "bb": sheet.DoubleFlat, "b": sheet.Flat, "n": sheet.Natural, "#": sheet.Sharp, "##": sheet.DoubleSharp, "(b)": sheet.Flat | sheet.Courtesy}
	h.Accidental = signs[name[1:len(name)-1]]
	return h
}

// note is a note of a power of two, with so many dots.
func note(power, dots int, heads ...string) *sheet.Note {
	n := &sheet.Note{Value: sheet.Value{Power: power, Dots: dots}}
	n.Length = grid.Must(n.Value.Length())
	for _, h := range heads {
		n.Heads = append(n.Heads, head(h))
	}
	return n
}

// voice lays notes and rests one after another.
func voice(number int, stem sheet.Stem, events ...sheet.Event) sheet.Voice {
	at := beat.Time(0)
	for _, e := range events {
		switch e := e.(type) {
		case *sheet.Note:
			e.Start = at
		case *sheet.Rest:
			e.Start = at
		}
		at += e.Span()
	}
	return sheet.Voice{Staff: 1, Number: number, Stem: stem, Events: events}
}

func bar(voices ...sheet.Voice) sheet.Bar {
	return sheet.Bar{Measure: &sheet.Measure{Signature: score.PlainSignature(4, 4), Length: 4 * quarter, Voices: voices}}
}

func find(t *testing.T, name string) *instrument.Instrument {
	i, ok := instrument.Find(name)
	require.True(t, ok, name)
	return i
}

// part is one in treble clef.
func part(t *testing.T, name string, bars ...sheet.Bar) sheet.Part {
	walk := iter.Seq[*sheet.Bar](func(yield func(*sheet.Bar) bool) {
		for b := range slices.Values(bars) {
			if !yield(&b) {
				return
			}
		}
	})
	return sheet.NewPart(sheet.Part{Instrument: find(t, name), Staves: []sheet.Staff{{Clef: instrument.Clef{Sign: 'G', Line: 2}, Lines: 5}}}, walk)
}

func rowsOf(parts ...sheet.Part) (*Reader, []Row) {
	d := NewReader(&sheet.Sheet{Grid: grid, Parts: parts})
	return d, slices.Collect(d.Rows)
}

// column returns what stands in the first column of a bar of voices, on its staff.
func column(t *testing.T, voices ...sheet.Voice) ([]Item, Reach) {
	_, rows := rowsOf(part(t, "flute", bar(voices...)))
	require.Len(t, rows, 1)
	return rows[0].Contents[0].Items, rows[0].Columns[0].Reach[0]
}

// beams joins notes under one beam.
func beams(notes ...*sheet.Note) []sheet.Event {
	events := make([]sheet.Event, len(notes))
	for i, n := range notes {
		n.Beams = []sheet.Beam{sheet.BeamContinue}
		events[i] = n
	}
	notes[0].Beams[0], notes[len(notes)-1].Beams[0] = sheet.BeamBegin, sheet.BeamEnd
	return events
}

// units are lengths in a row.
func units(u ...pen.Unit) []pen.Unit { return u }
