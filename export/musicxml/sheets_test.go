package musicxml

import (
	"iter"
	"slices"

	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/beat"
	"tieover/score/instrument"
)

// Sheets made by hand, so that the writer is tested without the layout. The
// grid has 60 ticks to a quarter note: 3 and 5 divide it.

const testGrid beat.Grid = 240

const (
	eighth  = 30
	quarter = 60
)

var (
	whole_   = sheet.Value{Power: 0}
	half_    = sheet.Value{Power: 1}
	quarter_ = sheet.Value{Power: 2}
	eighth_  = sheet.Value{Power: 3}
	six_     = sheet.Value{Power: 4} // a sixteenth
)

func dotted(v sheet.Value) sheet.Value { v.Dots = 1; return v }

func ticksOf(v sheet.Value) beat.Time {
	t := beat.Time(testGrid) >> v.Power
	if v.Dots == 1 {
		t += t / 2
	}
	return t
}

// at is a pitched head: at("F#4") as a spec writes it, without a sign.
func at(name string) sheet.Head {
	h := sheet.Head{Step: name[0], Octave: int8(name[len(name)-1] - '0')}
	for _, c := range name[1 : len(name)-1] {
		if c == '#' {
			h.Alter++
		} else {
			h.Alter--
		}
	}
	return h
}

func drum(index int) sheet.Head { return sheet.Head{Drum: index} }

func sign(h sheet.Head, a sheet.Accidental) sheet.Head { h.Accidental = a; return h }

// note is one note of a plain value.
func note(v sheet.Value, heads ...sheet.Head) *sheet.Note {
	return &sheet.Note{Length: ticksOf(v), Value: v, Heads: heads}
}

func rest(v sheet.Value) *sheet.Rest { return &sheet.Rest{Length: ticksOf(v), Value: v} }

func wholeRest(length beat.Time) *sheet.Rest { return &sheet.Rest{Length: length, Whole: true} }

func beamed(n *sheet.Note, beams ...sheet.Beam) *sheet.Note { n.Beams = beams; return n }

func tiedIn(n *sheet.Note) *sheet.Note  { n.TieIn = true; return n }
func tiedOut(n *sheet.Note) *sheet.Note { n.TieOut = true; return n }
func accented(n *sheet.Note) *sheet.Note {
	n.Accent = true
	return n
}

// touched plays a note so; a ghost note is one with all its heads.
func touched(n *sheet.Note, t score.Touch) *sheet.Note {
	n.Touch = t &^ score.Ghost
	for i := range n.Heads {
		n.Heads[i].Ghost = t.Has(score.Ghost)
	}
	return n
}

// tuplet joins events to one tuplet and shortens them by its ratio.
func tuplet(t sheet.Tuplet, events ...sheet.Event) []sheet.Event {
	shared := &t
	for i, e := range events {
		first, last := i == 0, i == len(events)-1
		switch e := e.(type) {
		case *sheet.Note:
			e.Tuplet, e.TupletStart, e.TupletStop = shared, first, last
			e.Length = e.Length * beat.Time(t.Normal) / beat.Time(t.Actual)
		case *sheet.Rest:
			e.Tuplet, e.TupletStart, e.TupletStop = shared, first, last
			e.Length = e.Length * beat.Time(t.Normal) / beat.Time(t.Actual)
		}
	}
	return events
}

// run is neighbours of one value under one beam.
func run(v sheet.Value, heads ...sheet.Head) []sheet.Event {
	var events []sheet.Event
	for i, h := range heads {
		b := sheet.BeamContinue
		switch i {
		case 0:
			b = sheet.BeamBegin
		case len(heads) - 1:
			b = sheet.BeamEnd
		}
		n := note(v, h)
		for range v.Power - 2 {
			n.Beams = append(n.Beams, b)
		}
		events = append(events, n)
	}
	return events
}

// voice sets the events one after another.
func voice(staff, number int, stem sheet.Stem, groups ...any) sheet.Voice {
	v := sheet.Voice{Staff: staff, Number: number, Stem: stem}
	for _, g := range groups {
		switch g := g.(type) {
		case sheet.Event:
			v.Events = append(v.Events, g)
		case []sheet.Event:
			v.Events = append(v.Events, g...)
		}
	}
	now := beat.Time(0)
	for _, e := range v.Events {
		switch e := e.(type) {
		case *sheet.Note:
			e.Start = now
		case *sheet.Rest:
			e.Start = now
		}
		now += e.Span()
	}
	return v
}

func plainVoice(groups ...any) sheet.Voice { return voice(1, 1, sheet.StemFree, groups...) }

func measure(s score.Signature, voices ...sheet.Voice) *sheet.Measure {
	return &sheet.Measure{Signature: s, Key: score.Key{None: true}, Length: testGrid.Must(s.Span()), Voices: voices}
}

func additive(unit int, groups ...int) score.Signature {
	return score.Signature{Terms: []score.Term{{Groups: groups, Unit: unit}}}
}

// inTurn is a walk over the bars that numbers them and sets their starts.
func inTurn(bars ...sheet.Bar) iter.Seq[*sheet.Bar] {
	bars = slices.Clone(bars)
	now := beat.Time(0)
	for i := range bars {
		bars[i].Number, bars[i].Start = i+1, now
		now += bars[i].Measure.Length
	}
	return func(yield func(*sheet.Bar) bool) {
		for i := range bars {
			if !yield(&bars[i]) {
				return
			}
		}
	}
}

func mark(kind sheet.MarkKind, before int, text string) sheet.Mark {
	return sheet.Mark{Kind: kind, Before: before, Text: text}
}

func numbered(kind sheet.MarkKind, before, n int) sheet.Mark {
	return sheet.Mark{Kind: kind, Before: before, N: n}
}

func mustFind(name string) *instrument.Instrument {
	i, ok := instrument.Find(name)
	if !ok {
		panic("no instrument " + name)
	}
	return i
}

// part is a part on the instrument's own staves.
func part(name, short, on string, bars ...sheet.Bar) sheet.Part {
	i := mustFind(on)
	staves := []sheet.Staff{{Clef: i.Clef, Lines: i.Lines}}
	if i.Staves == 2 {
		staves = append(staves, sheet.Staff{Clef: instrument.Clef{Sign: 'F', Line: 4}, Lines: 5})
	}
	return sheet.NewPart(sheet.Part{Name: name, Short: short, Instrument: i, Staves: staves, Layers: []string{name}}, inTurn(bars...))
}

// towpath is a small score of two parts and three bars: cycles, a tie over the
// barline, beams, a realignment.
func towpath() *sheet.Sheet {
	five := score.PlainSignature(5, 8)
	e5, b4, g4 := at("E5"), at("B4"), sign(at("F#4"), sheet.Sharp)
	cycle := measure(five, plainVoice(note(dotted(quarter_), e5), accented(note(quarter_, b4))))
	crossing := measure(five, plainVoice(note(quarter_, e5), note(quarter_, b4), tiedOut(note(eighth_, g4))))
	held := measure(five, plainVoice(tiedIn(note(quarter_, at("F#4"))), run(eighth_, e5, b4, e5)))
	tempo := &score.Tempo{Quarters: beat.Of(132, 1), Beat: beat.Of(1, 8), Rate: beat.Of(264, 1)}
	return &sheet.Sheet{
		Title: "Towpath", Composer: "A. Keeper", Grid: testGrid, Bars: 3,
		Parts: []sheet.Part{
			part("Marimba", "Mar.", "marimba",
				sheet.Bar{Measure: cycle, NewMeter: true, NewKey: true, Marks: []sheet.Mark{
					mark(sheet.Rehearsal, 0, "B"), {Kind: sheet.TempoMark, Tempo: tempo},
					numbered(sheet.CycleNumber, 0, 1), mark(sheet.Grouping, 0, "3+2"), mark(sheet.CycleStart, 0, ""),
					mark(sheet.CycleStop, 1, ""),
				}},
				sheet.Bar{Measure: cycle, Barline: sheet.Double, Marks: []sheet.Mark{numbered(sheet.CycleNumber, 0, 2)}},
				sheet.Bar{Measure: cycle, Break: sheet.NewSystem, Barline: sheet.Final, Marks: []sheet.Mark{
					mark(sheet.Rehearsal, 0, "B1"), numbered(sheet.CycleNumber, 0, 1), mark(sheet.Boxed, 2, "B2"),
				}}),
			part("Vibraphone", "Vib.", "vibraphone",
				sheet.Bar{Measure: crossing, NewMeter: true, NewKey: true},
				sheet.Bar{Measure: held, Barline: sheet.Double},
				sheet.Bar{Measure: measure(five, plainVoice(wholeRest(5*eighth))), Break: sheet.NewSystem, Barline: sheet.Final}),
		},
	}
}
