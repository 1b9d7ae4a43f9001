package edit_test

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"tieover/layout/edit"
	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/beat"
	"tieover/score/instrument"
)

// The sheets below are made by hand, in 4/4 and 32 ticks to a whole note, so that what
// goes in is plain.
const grid = 32

// measure is a bar of one voice; the events follow each other.
func measure(events ...sheet.Event) *sheet.Measure {
	return &sheet.Measure{Signature: score.PlainSignature(4, 4), Length: grid,
		Voices: []sheet.Voice{{Staff: 1, Number: 1, Events: inOrder(events)}}}
}

func inOrder(events []sheet.Event) []sheet.Event {
	var at beat.Time
	for _, e := range events {
		switch e := e.(type) {
		case *sheet.Note:
			e.Start = at
		case *sheet.Rest:
			e.Start = at
		}
		at += e.Span()
	}
	return events
}

// note is an F sharp 4 of so many ticks, of which the key has no sharp.
func note(length beat.Time) *sheet.Note {
	return &sheet.Note{Length: length, Heads: []sheet.Head{{Step: 'F', Alter: 1, Octave: 4}}}
}

// whole is a sheet of one part, or of several of the same bars, numbered from 1; the top
// one has the labels.
func whole(names []string, bars ...sheet.Bar) *sheet.Sheet {
	flute, _ := instrument.Find("flute")
	s := &sheet.Sheet{Grid: grid, Bars: len(bars)}
	for k, name := range names {
		p := sheet.Part{Name: name, Instrument: flute, Layers: []string{name}, Staves: []sheet.Staff{{Clef: flute.Clef, Lines: 5}}}
		s.Parts = append(s.Parts, sheet.NewPart(p, func(yield func(*sheet.Bar) bool) {
			at := beat.Time(0)
			for i, b := range bars {
				b.Number, b.Start = i+1, at
				at += b.Measure.Length
				if k > 0 {
					b.Marks = slices.DeleteFunc(slices.Clone(b.Marks), func(m sheet.Mark) bool { return m.Kind == sheet.Rehearsal })
				}
				if !yield(&b) {
					return
				}
			}
		}))
	}
	return s
}

func cut(t *testing.T, s *sheet.Sheet, from, to int) []sheet.Bar {
	t.Helper()
	e, problems := edit.Excerpt(s, from, to, nil)
	require.NoError(t, problems.Err())
	assert.Equal(t, to-from+1, e.Bars)
	return bars(&e.Parts[0])
}

func bars(p *sheet.Part) (all []sheet.Bar) {
	for b := range p.Bars() {
		all = append(all, *b)
	}
	return all
}

// notes are those of a bar's first voice.
func notes(b sheet.Bar) (all []*sheet.Note) {
	for _, e := range b.Measure.Voices[0].Events {
		if n, ok := e.(*sheet.Note); ok {
			all = append(all, n)
		}
	}
	return all
}

// A tie over an edge is cut, and the sign that it had made needless is printed; in a key
// that has the sharp none is. The whole sheet, whose bars are shared, stays as it is.
func TestExcerptInsideATie(t *testing.T) {
	for fifths, sign := range map[int]sheet.Accidental{0: sheet.Sharp, 1: sheet.NoSign} {
		out, in := note(grid), note(grid)
		out.TieOut, in.TieIn = true, true
		first, second := measure(out), measure(in)
		second.Key.Fifths = fifths
		s := whole([]string{"Weir"}, sheet.Bar{Measure: first}, sheet.Bar{Measure: second})

		left := notes(cut(t, s, 2, 2)[0])[0]
		assert.False(t, left.TieIn)
		assert.Equal(t, sign, left.Heads[0].Accidental)
		assert.False(t, notes(cut(t, s, 1, 1)[0])[0].TieOut)
		both := cut(t, s, 1, 2)
		assert.True(t, notes(both[0])[0].TieOut && notes(both[1])[0].TieIn, "inside the excerpt")

		assert.True(t, out.TieOut && in.TieIn)
		assert.Equal(t, sheet.NoSign, in.Heads[0].Accidental)
	}
}

// A sign that is there already is left alone, and an unpitched head gets none.
func TestExcerptInsideATieWithSigns(t *testing.T) {
	in := note(grid)
	in.TieIn = true
	in.Heads = []sheet.Head{{Step: 'F', Alter: 1, Octave: 4, Accidental: sheet.Sharp | sheet.Courtesy}, {Drum: 1}}
	s := whole([]string{"Weir"}, sheet.Bar{Measure: measure(note(grid))}, sheet.Bar{Measure: measure(in)})
	heads := notes(cut(t, s, 2, 2)[0])[0].Heads
	assert.Equal(t, []sheet.Accidental{sheet.Sharp | sheet.Courtesy, sheet.NoSign}, []sheet.Accidental{heads[0].Accidental, heads[1].Accidental})
}

// A tuplet does not cross a barline: where its first note was tied in it is a tuplet of
// the same three notes still, as is one whose last note was tied out.
func TestExcerptAtATuplet(t *testing.T) {
	triplet := &sheet.Tuplet{Actual: 3, Normal: 2, ShowNumber: true}
	three := func() []sheet.Event {
		var all []sheet.Event
		for range 3 {
			n := note(8) // the last, of 16, makes up the bar
			n.Tuplet = triplet
			all = append(all, n)
		}
		all[0].(*sheet.Note).TupletStart, all[2].(*sheet.Note).TupletStop, all[2].(*sheet.Note).Length = true, true, 16
		return all
	}
	a, b := three(), three()
	a[2].(*sheet.Note).TieOut, b[0].(*sheet.Note).TieIn = true, true
	s := whole([]string{"Weir"}, sheet.Bar{Measure: measure(a...)}, sheet.Bar{Measure: measure(b...)})
	for n := 1; n <= 2; n++ {
		got := notes(cut(t, s, n, n)[0])
		require.Len(t, got, 3)
		for k, n := range got {
			assert.Same(t, triplet, n.Tuplet)
			assert.Equal(t, []bool{k == 0, k == 2, false, false}, []bool{n.TupletStart, n.TupletStop, n.TieIn, n.TieOut})
		}
	}
}

// Of a beam over the barline each side keeps what is a beam by itself: of three notes
// before and one after, three and none. The second level is inside the bar, and stays.
func TestExcerptInsideABeam(t *testing.T) {
	beamed := func(beams ...sheet.Beam) *sheet.Note {
		n := note(8)
		n.Beams = beams
		return n
	}
	first := measure(note(8), beamed(sheet.BeamBegin), beamed(sheet.BeamContinue, sheet.BeamBegin), beamed(sheet.BeamContinue, sheet.BeamEnd))
	second := measure(beamed(sheet.BeamEnd), note(8), note(16))
	notes(sheet.Bar{Measure: first})[3].BeamOut, notes(sheet.Bar{Measure: second})[0].BeamIn = true, true
	s := whole([]string{"Weir"}, sheet.Bar{Measure: first}, sheet.Bar{Measure: second})

	last := notes(cut(t, s, 1, 1)[0])[3]
	assert.False(t, last.BeamOut)
	assert.Equal(t, []sheet.Beam{sheet.BeamEnd, sheet.BeamEnd}, last.Beams)
	lone := notes(cut(t, s, 2, 2)[0])[0]
	assert.False(t, lone.BeamIn)
	assert.Empty(t, lone.Beams)

	first = measure(note(24), beamed(sheet.BeamBegin))
	second = measure(beamed(sheet.BeamContinue), beamed(sheet.BeamEnd), note(16))
	notes(sheet.Bar{Measure: first})[1].BeamOut, notes(sheet.Bar{Measure: second})[0].BeamIn = true, true
	s = whole([]string{"Weir"}, sheet.Bar{Measure: first}, sheet.Bar{Measure: second})
	assert.Empty(t, notes(cut(t, s, 1, 1)[0])[1].Beams)
	assert.Equal(t, []sheet.Beam{sheet.BeamBegin}, notes(cut(t, s, 2, 2)[0])[0].Beams)
}

// lines lists the marks of a bar that begin and end lines, with their places.
func lines(b sheet.Bar) (all []string) {
	names := map[sheet.MarkKind]string{sheet.CycleStart: "[", sheet.CycleStop: "]", sheet.HairpinStart: "<", sheet.HairpinStop: ">",
		sheet.GradualStart: "rit", sheet.GradualStop: "/rit"}
	for _, m := range b.Marks {
		if name := names[m.Kind]; name != "" {
			all = append(all, fmt.Sprint(name, m.Before))
		}
	}
	return all
}

// Brackets, hairpins and dashes that reach over an edge: what has begun before is left
// out, but for a rit., which is named again; what goes on ends with the last event.
func TestExcerptInsideLines(t *testing.T) {
	mark := func(kind sheet.MarkKind, before int) sheet.Mark { return sheet.Mark{Kind: kind, Before: before} }
	halves := func() *sheet.Measure { return measure(note(16), note(16)) }
	tempo := sheet.Mark{Kind: sheet.TempoMark, Tempo: score.PlainTempo(beat.Of(90, 1), beat.Of(1, 4))}
	s := whole([]string{"Weir"},
		sheet.Bar{Measure: halves(), Marks: []sheet.Mark{tempo, mark(sheet.CycleStart, 0), mark(sheet.HairpinStart, 1), {Kind: sheet.GradualStart, Before: 1, Text: "rit."}}},
		sheet.Bar{Measure: halves()},
		sheet.Bar{Measure: halves(), Marks: []sheet.Mark{mark(sheet.CycleStop, 0), mark(sheet.CycleStart, 1), mark(sheet.HairpinStop, 1), mark(sheet.GradualStop, 2)}})
	assert.Equal(t, []string{"[0", "<1", "rit1", "]1", ">1", "/rit1"}, lines(cut(t, s, 1, 1)[0]))
	assert.Equal(t, []string{"rit0", "/rit1"}, lines(cut(t, s, 2, 2)[0]))
	assert.Equal(t, []string{"rit0", "[1", "]1", "/rit2"}, lines(cut(t, s, 3, 3)[0]))
	assert.Equal(t, "(rit.)", cut(t, s, 2, 2)[0].Marks[1].Text)
	all := cut(t, s, 1, 3)
	assert.Equal(t, [][]string{{"[0", "<1", "rit1"}, nil, {"]0", "[1", ">1", "]1", "/rit2"}}, [][]string{lines(all[0]), lines(all[1]), lines(all[2])})
}

// A slur over an edge begins or ends with the note there; where that would leave it a
// single note, or the tied signs of one, it is left out.
func TestExcerptInsideASlur(t *testing.T) {
	slurred := func(n *sheet.Note, starts, stops bool) *sheet.Note {
		n.Slur = score.Slur{Starts: starts, Stops: stops}
		return n
	}
	slurs := func(b sheet.Bar) (all string) {
		for _, n := range notes(b) {
			switch n.Slur {
			case score.Slur{Starts: true}:
				all += "("
			case score.Slur{Stops: true}:
				all += ")"
			default:
				all += "."
			}
		}
		return all
	}
	long := whole([]string{"Weir"},
		sheet.Bar{Measure: measure(slurred(note(16), true, false), note(16))},
		sheet.Bar{Measure: measure(note(16), slurred(note(16), false, true))})
	assert.Equal(t, "()", slurs(cut(t, long, 1, 1)[0]))
	assert.Equal(t, "()", slurs(cut(t, long, 2, 2)[0]))
	both := cut(t, long, 1, 2)
	assert.Equal(t, "(. .)", slurs(both[0])+" "+slurs(both[1]))

	tied := note(16)
	tied.TieOut = true
	end := slurred(note(16), false, true)
	end.TieIn = true
	short := whole([]string{"Weir"},
		sheet.Bar{Measure: measure(note(16), slurred(note(16), true, false))},
		sheet.Bar{Measure: measure(tied, end)})
	assert.Equal(t, "..", slurs(cut(t, short, 1, 1)[0]))
	assert.Equal(t, "..", slurs(cut(t, short, 2, 2)[0]))
	assert.Equal(t, score.Slur{Stops: true}, end.Slur, "the whole sheet is not changed")
}

// Parts and bars that there are not are problems.
func TestExcerptRefuses(t *testing.T) {
	s := whole([]string{"Weir", "Sluice"}, sheet.Bar{Measure: measure(note(grid))}, sheet.Bar{Measure: measure(note(grid))})
	e, problems := edit.Excerpt(s, 1, 2, []string{"Sluice"})
	require.NoError(t, problems.Err())
	require.Len(t, e.Parts, 1)
	assert.Equal(t, "Sluice", e.Parts[0].Name)
	_, problems = edit.Excerpt(s, 3, 9, nil)
	assert.ErrorContains(t, problems.Err(), "bars 3 to 9 are not in the piece, which has 2")
	_, problems = edit.Excerpt(s, 1, 2, []string{"Gate", "Weir"})
	assert.ErrorContains(t, problems.Err(), `there is no part "Gate" to excerpt`)
}
