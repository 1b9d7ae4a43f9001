package content

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/layout/sheet"
	"tieover/score/beat"
)

// times are the moments of a row's columns, and gaps their ideal distances.
func times(r *Row) (at []beat.Time, gaps []int) {
	for _, c := range r.Columns {
		at, gaps = append(at, c.At), append(gaps, int(c.Gap))
	}
	return at, gaps
}

func events(n int, make func() sheet.Event) (all []sheet.Event) {
	for range n {
		all = append(all, make())
	}
	return all
}

// A column stands at every moment at which something begins in any part. Each asks for as
// much as the longest sign that sounds then, in proportion to the time: an eighth has an
// ideal width of 225, a quarter of 290, a half of 380, a triplet eighth 225 - 40/3 less.
func TestColumnsOfTwoParts(t *testing.T) {
	quarters := bar(voice(1, sheet.StemFree, note(2, 0, "A4"), note(2, 0, "A4"), note(1, 0, "A4")))
	dotted := bar(voice(1, sheet.StemFree, note(2, 1, "A4"), note(3, 0, "A4"), note(1, 0, "A4")))
	_, rows := rowsOf(part(t, "flute", quarters), part(t, "flute", dotted))
	require.Len(t, rows, 1)
	at, gaps := times(&rows[0])
	assert.Equal(t, []beat.Time{0, 24, 36, 48}, at)
	// A dotted quarter is halfway from a quarter to a half: 335; its last third is 111.
	// The second quarter gives its first half 145, and the eighth asks for 225.
	assert.Equal(t, []int{290, 145, 225, 380}, gaps)
	assert.Equal(t, []int{0, 1}, []int{rows[0].Columns[0].Reach[0].Staff, rows[0].Columns[0].Reach[1].Staff})
	assert.Len(t, rows[0].Columns[1].Reach, 1)
	assert.Equal(t, 2, rows[0].ColumnAt(36))
	assert.Equal(t, -1, rows[0].ColumnAt(30))
}

// A bar's rest and what is hidden have no column; a bar of nothing else is 700 wide.
func TestQuietBars(t *testing.T) {
	whole := &sheet.Rest{Length: 4 * quarter, Whole: true}
	hidden := &sheet.Rest{Length: 4 * quarter, Value: sheet.Value{Power: 0}, Hidden: true}
	printed := &sheet.Rest{Length: 4 * quarter, Value: sheet.Value{Power: 0}}
	for rest, columns := range map[*sheet.Rest]int{whole: 0, hidden: 0, printed: 1} {
		_, rows := rowsOf(part(t, "flute", bar(voice(1, sheet.StemFree, rest))))
		assert.Len(t, rows[0].Columns, columns)
		assert.Equal(t, 700, int(rows[0].Natural))
	}
}

// Three bars of rest in one sign are one row of three times the length, with the barline
// at the end of the last; in a score each bar is a row.
func TestGatheredRests(t *testing.T) {
	rest := func() sheet.Bar { return bar(voice(1, sheet.StemFree, &sheet.Rest{Length: 4 * quarter, Whole: true})) }
	bars := []sheet.Bar{rest(), rest(), rest(), bar(voice(1, sheet.StemFree, note(0, 0, "A4")))}
	bars[0].Rest, bars[2].Barline, bars[2].Times = 3, sheet.RepeatEnd, 4
	_, rows := rowsOf(part(t, "flute", bars...))
	require.Len(t, rows, 2)
	assert.Equal(t, []int{3, 0}, []int{rows[0].Rest, rows[1].Rest})
	assert.Equal(t, beat.Time(12*quarter), rows[0].Length)
	assert.Equal(t, 1000, int(rows[0].Natural))
	assert.Equal(t, sheet.RepeatEnd, rows[0].Bars[0].Barline)
	assert.Equal(t, 4, rows[0].Bars[0].Times)
	assert.Empty(t, rows[0].Columns)
	_, rows = rowsOf(part(t, "flute", bars...), part(t, "flute", bars...))
	assert.Len(t, rows, 4)
	bars[2].Rest = 1
	_, rows = rowsOf(part(t, "flute", bars[2:]...))
	assert.Equal(t, 0, rows[0].Rest, "one bar of rest is no more than that")
}

// Equal bars are made once, those with a sign in place of their notes apart; when 2,048
// are remembered all are forgotten.
func TestEqualBarsAreMadeOnce(t *testing.T) {
	one := bar(voice(1, sheet.StemFree, note(0, 0, "A4")))
	again := one
	repeated := one
	repeated.Repeats[0] = 1
	d, rows := rowsOf(part(t, "flute", one, again, repeated))
	assert.Same(t, rows[0].Contents[0], rows[1].Contents[0])
	assert.NotSame(t, rows[0].Contents[0], rows[2].Contents[0])
	assert.Empty(t, rows[2].Columns, "the sign stands for the notes")
	assert.Len(t, rows[2].Bars[0].Measure.Voices[0].Events, 1)
	for range 2100 {
		fresh := bar(voice(1, sheet.StemFree, note(0, 0, "A4")))
		d.bar(0, &fresh)
		require.LessOrEqual(t, len(d.known), 2048)
	}
	assert.Len(t, d.known, 2+2100-2048)
}

// A dashed stroke asks for room before its column, but not at a bar's first, nor where it
// stands inside a note.
func TestStrokesBeforeColumns(t *testing.T) {
	b := bar(voice(1, sheet.StemFree, events(4, func() sheet.Event { return note(2, 0, "A4") })...))
	b.Marks = []sheet.Mark{{Kind: sheet.Stroke, Before: 0}, {Kind: sheet.Stroke, Before: 1}, {Kind: sheet.Stroke, Before: 2, Offset: 6}, {Kind: sheet.Words, Before: 3}, {Kind: sheet.Stroke, Before: 4}}
	_, rows := rowsOf(part(t, "flute", b))
	var stroked []bool
	for _, c := range rows[0].Columns {
		stroked = append(stroked, c.Stroke)
	}
	assert.Equal(t, []bool{false, true, false, false}, stroked)
}

// A beam over a barline has one direction: A4 alone would go up and so would its bar's
// group, but F5 in the next bar is farther from the middle line. A beam over three bars
// takes the farthest of all of them; what does not cross stays as it was.
func TestBeamsOverBarlines(t *testing.T) {
	crossing := func(in, out bool, names ...string) sheet.Bar {
		var notes []*sheet.Note
		for _, name := range names {
			notes = append(notes, note(3, 0, name))
		}
		group := beams(notes...)
		if in {
			notes[0].Beams[0], notes[0].BeamIn = sheet.BeamContinue, true
		}
		if out {
			last := notes[len(notes)-1]
			last.Beams[0], last.BeamOut = sheet.BeamContinue, true
		}
		if in && !out {
			notes[len(notes)-1].Beams[0] = sheet.BeamEnd
		}
		return bar(voice(1, sheet.StemFree, group...))
	}
	ups := func(rows []Row) (all [][]bool) {
		for i := range rows {
			var up []bool
			for _, it := range rows[i].Contents[0].Items {
				up = append(up, it.Up)
			}
			all = append(all, up)
		}
		return all
	}
	d, rows := rowsOf(part(t, "flute", crossing(false, true, "A4", "G4"), crossing(true, false, "F5", "C5")))
	assert.Equal(t, [][]bool{{true, true}, {false, false}}, ups(rows))
	d.JoinBeams(rows)
	assert.Equal(t, [][]bool{{false, false}, {false, false}}, ups(rows))

	d, rows = rowsOf(part(t, "flute", crossing(false, true, "C5", "D5"), crossing(true, true, "B4", "C5"), crossing(true, false, "C4", "A4")))
	assert.Equal(t, [][]bool{{false, false}, {false, false}, {true, true}}, ups(rows))
	d.JoinBeams(rows)
	assert.Equal(t, [][]bool{{true, true}, {true, true}, {true, true}}, ups(rows))

	// The first bar decides; after its group is a rest.
	high := crossing(false, true, "F5", "C5")
	high.Measure.Voices[0] = voice(1, sheet.StemFree, append(high.Measure.Voices[0].Events, &sheet.Rest{Length: quarter, Value: sheet.Value{Power: 2}})...)
	d, rows = rowsOf(part(t, "flute", high, crossing(true, false, "A4", "G4")))
	d.JoinBeams(rows)
	assert.Equal(t, []bool{false, false}, ups(rows)[1])
	d, rows = rowsOf(part(t, "flute", high, crossing(true, false, "A4", "G4")))
	d.JoinBeams(rows[1:])
	assert.Equal(t, []bool{true, true}, ups(rows)[1], "on a line of its own nothing is known of the bar before")

	// One beam ends in the bar in which the next begins.
	both := crossing(true, false, "A4", "G4")
	both.Measure.Voices[0] = voice(1, sheet.StemFree, append(both.Measure.Voices[0].Events, crossing(false, true, "D5", "E5").Measure.Voices[0].Events...)...)
	d, rows = rowsOf(part(t, "flute", crossing(false, true, "F5", "C5"), both, crossing(true, false, "C4", "A4")))
	d.JoinBeams(rows)
	assert.Equal(t, [][]bool{{false, false}, {false, false, true, true}, {true, true}}, ups(rows))

	// Four notes, of which only the last two cross.
	first := bar(voice(1, sheet.StemFree, append(beams(note(3, 0, "G4"), note(3, 0, "A4")), crossing(false, true, "A4", "G4").Measure.Voices[0].Events...)...))
	first.Measure.Voices[0] = voice(1, sheet.StemFree, first.Measure.Voices[0].Events...)
	d, rows = rowsOf(part(t, "flute", first, crossing(true, false, "F5", "C5")))
	d.JoinBeams(rows)
	assert.Equal(t, [][]bool{{true, true, false, false}, {false, false}}, ups(rows))
}
