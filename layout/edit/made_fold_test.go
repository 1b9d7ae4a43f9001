package edit_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/layout/edit"
	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/beat"
)

// passes is a sheet of four bars, of which the first and the third begin periods of two;
// change may alter them before the sheet is made.
func passes(change func(bars []sheet.Bar)) *sheet.Sheet {
	one, two := measure(note(16), note(16)), measure(note(8), note(24))
	all := []sheet.Bar{{Measure: one, Realigned: true}, {Measure: two}, {Measure: one, Realigned: true}, {Measure: two}}
	for i, label := range map[int]string{0: "A", 2: "A1"} {
		all[i].Marks = []sheet.Mark{{Kind: sheet.Rehearsal, Text: label}}
	}
	if change != nil {
		change(all)
	}
	return whole([]string{"Weir", "Sluice"}, all...)
}

func TestFoldOfAnExactRepetition(t *testing.T) {
	s := passes(nil)
	f := edit.Fold(s)
	require.Equal(t, 2, f.Bars)
	assert.Equal(t, 4, s.Bars, "the sheet itself is whole")
	for i := range f.Parts {
		got := bars(&f.Parts[i])
		require.Len(t, got, 2)
		assert.Equal(t, []sheet.Barline{sheet.RepeatStart, sheet.Plain}, []sheet.Barline{got[0].Left, got[1].Left})
		assert.Equal(t, []sheet.Barline{sheet.Plain, sheet.RepeatEnd}, []sheet.Barline{got[0].Barline, got[1].Barline})
		assert.Equal(t, []int{2, 2}, []int{got[0].Times, got[1].Times})
		assert.Equal(t, []int{1, 2}, []int{got[0].Number, got[1].Number})
	}
	assert.Equal(t, []string{"1.0 A–A1"}, marksOf(&f.Parts[0], sheet.Rehearsal))
}

// Bars of equal content need not be one Measure; a sign in parentheses is no difference.
func TestFoldComparesBars(t *testing.T) {
	f := edit.Fold(passes(func(b []sheet.Bar) {
		courtesy := note(24)
		courtesy.Heads[0].Accidental = sheet.Sharp | sheet.Courtesy
		b[3].Measure = measure(note(8), courtesy)
	}))
	assert.Equal(t, 2, f.Bars)
}

// What is no exact repetition of a whole period stays as it is, and so does the sheet.
func TestFoldOfNoRepetition(t *testing.T) {
	quarter := beat.Of(1, 4)
	for name, change := range map[string]func(b []sheet.Bar){
		"another rhythm": func(b []sheet.Bar) { b[3].Measure = measure(note(24), note(8)) },
		"another accent": func(b []sheet.Bar) {
			m := measure(note(8), note(24))
			m.Voices[0].Events[1].(*sheet.Note).Accent = true
			b[3].Measure = m
		},
		"no realignment":     func(b []sheet.Bar) { b[2].Realigned = false },
		"a text in one pass": func(b []sheet.Bar) { b[3].Marks = []sheet.Mark{{Kind: sheet.Words, Text: "lean out"}} },
		"another section":    func(b []sheet.Bar) { b[2].Section, b[3].Section = 1, 1 },
		"a new key":          func(b []sheet.Bar) { b[3].NewKey = true },
		"a new meter":        func(b []sheet.Bar) { b[1].NewMeter, b[3].NewMeter = true, true },
		"a section repeated": func(b []sheet.Bar) { b[0].Left, b[3].Barline = sheet.RepeatStart, sheet.RepeatEnd },
		"a tempo in the second": func(b []sheet.Bar) {
			b[2].Marks = append(b[2].Marks, sheet.Mark{Kind: sheet.TempoMark, Tempo: score.PlainTempo(beat.Of(60, 1), quarter)})
		},
		"a dynamic in the first": func(b []sheet.Bar) { b[1].Marks = []sheet.Mark{{Kind: sheet.DynamicMark, Text: "f"}} },
		"a tie into the second": func(b []sheet.Bar) {
			out := note(24)
			out.TieOut = true
			b[1].Measure = measure(note(8), out)
			b[3].Measure = b[1].Measure
		},
		"a slur over the edges": func(b []sheet.Bar) {
			out := note(24)
			out.Slur.Starts = true
			b[1].Measure = measure(note(8), out)
			b[3].Measure = b[1].Measure
		},
		"a hairpin over the edge": func(b []sheet.Bar) {
			b[1].Marks = []sheet.Mark{{Kind: sheet.HairpinStart, N: 1}}
			b[3].Marks = []sheet.Mark{{Kind: sheet.HairpinStop, Before: 1}}
		},
	} {
		s := passes(change)
		assert.Same(t, s, edit.Fold(s), name)
	}
}

// A dynamic that all passes have at the same place, and that they begin with, is none.
func TestFoldWithAlikeDynamics(t *testing.T) {
	f := edit.Fold(passes(func(b []sheet.Bar) {
		for i := range b {
			b[i].Marks = append(b[i].Marks, sheet.Mark{Kind: sheet.DynamicMark, Text: []string{"mf", "p"}[i%2]})
		}
	}))
	assert.Equal(t, 2, f.Bars)
	assert.Equal(t, []string{"1.0 mf", "2.0 p"}, marksOf(&f.Parts[0], sheet.DynamicMark))
}

// Three passes, the last with the label of the end; a gathered rest ends with the repeat;
// what comes after the passes is there as before.
func TestFoldOfThreePasses(t *testing.T) {
	rest := func() *sheet.Measure { return measure(&sheet.Rest{Length: grid, Whole: true}) }
	var all []sheet.Bar
	for _, label := range []string{"B", "B1", "B2"} {
		all = append(all, sheet.Bar{Measure: rest(), Realigned: true, Rest: 2, Empty: true, Marks: []sheet.Mark{{Kind: sheet.Rehearsal, Text: label}}},
			sheet.Bar{Measure: rest(), Empty: true})
	}
	all[5].Marks = []sheet.Mark{{Kind: sheet.Boxed, Before: 1, Text: "B3"}}
	all[4].Rest = 3 // it goes on past the passes
	s := whole([]string{"Weir"}, all...)
	folds := edit.FindFolds(s)
	f := folds.Apply(s)
	require.Equal(t, 2, f.Bars)
	assert.Equal(t, []string{"1.0 B–B2"}, marksOf(&f.Parts[0], sheet.Rehearsal))
	assert.Equal(t, []string{"2.1 B3"}, marksOf(&f.Parts[0], sheet.Boxed))
	assert.Equal(t, 3, bars(&f.Parts[0])[1].Times)
	assert.Equal(t, 2, bars(&f.Parts[0])[0].Rest)

	all = append(all, sheet.Bar{Measure: measure(note(grid)), Realigned: true, Section: 1})
	all[5].Marks = nil
	f = edit.Fold(whole([]string{"Weir"}, all...))
	got := bars(&f.Parts[0])
	require.Len(t, got, 3)
	assert.Equal(t, []int{1, 2, 7}, []int{got[0].Number, got[1].Number, got[2].Number}, "as in the piece written out")
	for b := range f.Parts[0].Bars() {
		assert.Equal(t, 1, b.Number, "a walk that is stopped stops")
		break
	}
}

// Two bars of 4/4 above the bars of 3/4 that share their time: bar 2 of a is ticks 32 to
// 64, which bars 2 (24 to 48) and 3 (48 to 72) of b have a part of.
func TestCompareOfMadeSheets(t *testing.T) {
	three := func() *sheet.Measure {
		m := measure(note(24))
		m.Signature, m.Length = score.PlainSignature(3, 4), 24
		return m
	}
	a := whole([]string{"Weir", "Sluice"}, sheet.Bar{Measure: measure(note(grid))}, sheet.Bar{Measure: measure(note(grid))})
	b := whole([]string{"Weir", "Sluice"}, sheet.Bar{Measure: three()}, sheet.Bar{Measure: three()}, sheet.Bar{Measure: three()}, sheet.Bar{Measure: three()})
	second, problems := edit.Excerpt(a, 2, 2, nil)
	require.NoError(t, problems.Err())
	first, last := edit.Covering(b, second)
	assert.Equal(t, []int{2, 3}, []int{first, last})

	both, problems := edit.Compare(second, b, [2]string{"in 4/4", "in 3/4"})
	require.NoError(t, problems.Err())
	assert.Equal(t, 3, both.Bars)
	for i := range both.Parts {
		got := bars(&both.Parts[i])
		require.Len(t, got, 3)
		for k, want := range []struct {
			number, length int
			implicit       bool
			brk            sheet.Break
			line           sheet.Barline
		}{{2, 32, false, sheet.NoBreak, sheet.Final}, {3, 24, true, sheet.NewSystem, sheet.Plain}, {4, 24, true, sheet.NoBreak, sheet.Final}} {
			b := &got[k]
			assert.Equal(t, want.number, b.Number)
			assert.Equal(t, beat.Time(want.length), b.Measure.Length)
			assert.Equal(t, want.implicit, b.Implicit)
			assert.Equal(t, want.brk, b.Break)
			assert.Equal(t, want.line, b.Barline)
			assert.Equal(t, k < 2, b.NewMeter && b.NewKey)
		}
	}
	assert.Equal(t, []string{"2.0 in 4/4", "3.0 in 3/4"}, marksOf(&both.Parts[0], sheet.Words))
	assert.Empty(t, marksOf(&both.Parts[1], sheet.Words))
	for b := range both.Parts[0].Bars() {
		if b.Number == 3 {
			break
		}
		assert.Equal(t, 2, b.Number)
	}

	_, problems = edit.Compare(second, whole([]string{"Weir"}, sheet.Bar{Measure: three()}, sheet.Bar{Measure: three()}), [2]string{})
	assert.ErrorContains(t, problems.Err(), `there is no part "Sluice" to excerpt`)
	more := whole([]string{"Weir", "Sluice", "Gate"}, sheet.Bar{Measure: three()}, sheet.Bar{Measure: three()})
	more.Parts[2].Layers = []string{"Weir"}
	_, problems = edit.Compare(second, more, [2]string{})
	assert.ErrorContains(t, problems.Err(), "the two writings have 2 and 3 parts")
}

// A repeat that ends where a writing does keeps its sign.
func TestCompareKeepsRepeats(t *testing.T) {
	repeated := whole([]string{"Weir"}, sheet.Bar{Measure: measure(note(grid)), Left: sheet.RepeatStart, Barline: sheet.RepeatEnd, Times: 2})
	both, problems := edit.Compare(repeated, repeated, [2]string{"one", "two"})
	require.NoError(t, problems.Err())
	got := bars(&both.Parts[0])
	assert.Equal(t, []sheet.Barline{sheet.RepeatEnd, sheet.RepeatEnd}, []sheet.Barline{got[0].Barline, got[1].Barline})
}
