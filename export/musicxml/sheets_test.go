package musicxml

import (
	"iter"
	"slices"

	"tieover/layout"
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
	whole_   = layout.Value{Power: 0}
	half_    = layout.Value{Power: 1}
	quarter_ = layout.Value{Power: 2}
	eighth_  = layout.Value{Power: 3}
	six_     = layout.Value{Power: 4} // a sixteenth
)

func dotted(v layout.Value) layout.Value { v.Dots = 1; return v }

func ticksOf(v layout.Value) beat.Time {
	t := beat.Time(testGrid) >> v.Power
	if v.Dots == 1 {
		t += t / 2
	}
	return t
}

// at is a pitched head: at("F#4") as a spec writes it, without a sign.
func at(name string) layout.Head {
	h := layout.Head{Step: name[0], Octave: int8(name[len(name)-1] - '0')}
	for _, c := range name[1 : len(name)-1] {
		if c == '#' {
			h.Alter++
		} else {
			h.Alter--
		}
	}
	return h
}

func drum(index int) layout.Head { return layout.Head{Drum: index} }

func sign(h layout.Head, a layout.Accidental) layout.Head { h.Accidental = a; return h }

// note is one note of a plain value.
func note(v layout.Value, heads ...layout.Head) *layout.Note {
	return &layout.Note{Length: ticksOf(v), Value: v, Heads: heads}
}

func rest(v layout.Value) *layout.Rest { return &layout.Rest{Length: ticksOf(v), Value: v} }

func wholeRest(length beat.Time) *layout.Rest { return &layout.Rest{Length: length, Whole: true} }

func beamed(n *layout.Note, beams ...layout.Beam) *layout.Note { n.Beams = beams; return n }

func tiedIn(n *layout.Note) *layout.Note  { n.TieIn = true; return n }
func tiedOut(n *layout.Note) *layout.Note { n.TieOut = true; return n }
func accented(n *layout.Note) *layout.Note {
	n.Accent = true
	return n
}
func touched(n *layout.Note, t score.Touch) *layout.Note { n.Touch = t; return n }

// tuplet joins events to one tuplet and shortens them by its ratio.
func tuplet(t layout.Tuplet, events ...layout.Event) []layout.Event {
	shared := &t
	for i, e := range events {
		first, last := i == 0, i == len(events)-1
		switch e := e.(type) {
		case *layout.Note:
			e.Tuplet, e.TupletStart, e.TupletStop = shared, first, last
			e.Length = e.Length * beat.Time(t.Normal) / beat.Time(t.Actual)
		case *layout.Rest:
			e.Tuplet, e.TupletStart, e.TupletStop = shared, first, last
			e.Length = e.Length * beat.Time(t.Normal) / beat.Time(t.Actual)
		}
	}
	return events
}

// run is neighbours of one value under one beam.
func run(v layout.Value, heads ...layout.Head) []layout.Event {
	var events []layout.Event
	for i, h := range heads {
		b := layout.BeamContinue
		switch i {
		case 0:
			b = layout.BeamBegin
		case len(heads) - 1:
			b = layout.BeamEnd
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
func voice(staff, number int, stem layout.Stem, groups ...any) layout.Voice {
	v := layout.Voice{Staff: staff, Number: number, Stem: stem}
	for _, g := range groups {
		switch g := g.(type) {
		case layout.Event:
			v.Events = append(v.Events, g)
		case []layout.Event:
			v.Events = append(v.Events, g...)
		}
	}
	now := beat.Time(0)
	for _, e := range v.Events {
		switch e := e.(type) {
		case *layout.Note:
			e.Start = now
		case *layout.Rest:
			e.Start = now
		}
		now += e.Span()
	}
	return v
}

func plainVoice(groups ...any) layout.Voice { return voice(1, 1, layout.StemFree, groups...) }

func measure(s score.Signature, voices ...layout.Voice) *layout.Measure {
	return &layout.Measure{Signature: s, Key: score.Key{None: true}, Length: testGrid.Must(s.Span()), Voices: voices}
}

func additive(unit int, groups ...int) score.Signature {
	return score.Signature{Terms: []score.Term{{Groups: groups, Unit: unit}}}
}

// inTurn is a walk over the bars that numbers them and sets their starts.
func inTurn(bars ...layout.Bar) iter.Seq[*layout.Bar] {
	bars = slices.Clone(bars)
	now := beat.Time(0)
	for i := range bars {
		bars[i].Number, bars[i].Start = i+1, now
		now += bars[i].Measure.Length
	}
	return func(yield func(*layout.Bar) bool) {
		for i := range bars {
			if !yield(&bars[i]) {
				return
			}
		}
	}
}

func mark(kind layout.MarkKind, before int, text string) layout.Mark {
	return layout.Mark{Kind: kind, Before: before, Text: text}
}

func numbered(kind layout.MarkKind, before, n int) layout.Mark {
	return layout.Mark{Kind: kind, Before: before, N: n}
}

func mustFind(name string) *instrument.Instrument {
	i, ok := instrument.Find(name)
	if !ok {
		panic("no instrument " + name)
	}
	return i
}

// part is a part on the instrument's own staves.
func part(name, short, on string, bars ...layout.Bar) layout.Part {
	i := mustFind(on)
	staves := []layout.Staff{{Clef: i.Clef, Lines: i.Lines}}
	if i.Staves == 2 {
		staves = append(staves, layout.Staff{Clef: instrument.Clef{Sign: 'F', Line: 4}, Lines: 5})
	}
	return layout.NewPart(layout.Part{Name: name, Short: short, Instrument: i, Staves: staves, Layers: []string{name}}, inTurn(bars...))
}

// towpath is a small score of two parts and three bars: cycles, a tie over the
// barline, beams, a realignment.
func towpath() *layout.Sheet {
	five := score.PlainSignature(5, 8)
	e5, b4, g4 := at("E5"), at("B4"), sign(at("F#4"), layout.Sharp)
	cycle := measure(five, plainVoice(note(dotted(quarter_), e5), accented(note(quarter_, b4))))
	crossing := measure(five, plainVoice(note(quarter_, e5), note(quarter_, b4), tiedOut(note(eighth_, g4))))
	held := measure(five, plainVoice(tiedIn(note(quarter_, at("F#4"))), run(eighth_, e5, b4, e5)))
	tempo := &score.Tempo{Quarters: beat.Of(132, 1), Beat: beat.Of(1, 8), Rate: beat.Of(264, 1)}
	return &layout.Sheet{
		Title: "Towpath", Composer: "A. Keeper", Grid: testGrid, Bars: 3,
		Parts: []layout.Part{
			part("Marimba", "Mar.", "marimba",
				layout.Bar{Measure: cycle, NewMeter: true, NewKey: true, Marks: []layout.Mark{
					mark(layout.Rehearsal, 0, "B"), {Kind: layout.TempoMark, Tempo: tempo},
					numbered(layout.CycleNumber, 0, 1), mark(layout.Grouping, 0, "3+2"), mark(layout.CycleStart, 0, ""),
					mark(layout.CycleStop, 1, ""),
				}},
				layout.Bar{Measure: cycle, Barline: layout.Double, Marks: []layout.Mark{numbered(layout.CycleNumber, 0, 2)}},
				layout.Bar{Measure: cycle, Break: layout.NewSystem, Barline: layout.Final, Marks: []layout.Mark{
					mark(layout.Rehearsal, 0, "B1"), numbered(layout.CycleNumber, 0, 1), mark(layout.Boxed, 2, "B2"),
				}}),
			part("Vibraphone", "Vib.", "vibraphone",
				layout.Bar{Measure: crossing, NewMeter: true, NewKey: true},
				layout.Bar{Measure: held, Barline: layout.Double},
				layout.Bar{Measure: measure(five, plainVoice(wholeRest(5*eighth))), Break: layout.NewSystem, Barline: layout.Final}),
		},
	}
}
