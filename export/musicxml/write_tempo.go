package musicxml

import (
	"slices"

	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/beat"
)

// tempo returns a tempo mark with its playing speed in quarters a minute. Its
// words are a direction of their own before it, and so in parentheses after it is
// an equation of note values, so that a reader that does not know equations still
// has the tempo.
func (e *encoder) tempo(mark *sheet.Mark, v voicePlace) []*element {
	t := mark.Tempo
	var all []*element
	if t.Words != "" {
		all = append(all, e.tempoDirection(with(e.words(t.Words), "font-style", "normal", "font-weight", "bold"), mark, v))
	}
	if t.Kind == score.Steady {
		metronome := elem("metronome")
		addBeat(metronome, t.Beat)
		metronome.add(leaf("per-minute", rateText(t.Rate)))
		all = append(all, e.tempoDirection(metronome, mark, v))
	}
	all[len(all)-1].add(playedAt(t, 0))
	if t.Old != nil && t.New != nil {
		all = append(all, e.tempoDirection(with(equation(t.Old, t.New), "parentheses", "yes"), mark, v))
	}
	return all
}

// playedAt is a playing speed by itself, from so far inside a note on.
func playedAt(t *score.Tempo, offset beat.Time) *element {
	return with(elem("sound", when(offset != 0, ticks("offset", offset))), "tempo", decimals(t.Quarters.Num(), t.Quarters.Den(), 6))
}

// gradual is the beginning of a tempo that changes all the time, with its line.
func (e *encoder) gradual(mark *sheet.Mark, v voicePlace) *element {
	d := e.onTop(e.direction("above", with(e.words(mark.Text), "font-style", "italic"), mark.Offset, v.staff))
	d.children = slices.Insert(d.children, 1, elem("direction-type", dashes("start")))
	return d
}

func dashes(end string) *element { return with(elem("dashes"), "type", end, "number", "1") }

func (e *encoder) tempoDirection(sign *element, mark *sheet.Mark, v voicePlace) *element {
	return e.onTop(with(e.direction("above", sign, mark.Offset, v.staff), "directive", "yes"))
}

// rateText writes a rate to two places; one that is no such decimal says so
// with "c.".
func rateText(rate beat.Span) string {
	text := decimals(rate.Num(), rate.Den(), 2)
	if 100%rate.Den() != 0 {
		return "c. " + text
	}
	return text
}

// equation writes old = new. Values of a tuplet need notes rather than beat
// units, which have no tuplets.
func equation(old, new *score.Value) *element {
	m := elem("metronome")
	if old.Actual == old.Normal && new.Actual == new.Normal {
		addValueUnits(m, old)
		addValueUnits(m, new)
		return m
	}
	addNotes(m, old)
	m.add(leaf("metronome-relation", "equals"))
	addNotes(m, new)
	return m
}

// addBeat adds a plain or dotted value as a beat unit.
func addBeat(m *element, s beat.Span) {
	power, dots, ok := beat.NoteValue(s)
	if !ok {
		panic("musicxml: a tempo counts " + s.String() + ", which no single note is")
	}
	m.add(leaf("beat-unit", typeNames[power]))
	for range dots {
		m.add(elem("beat-unit-dot"))
	}
}

func addValueUnits(m *element, v *score.Value) {
	addBeat(m, v.Base)
	if v.Tied.Sign() > 0 {
		tied := elem("beat-unit-tied")
		addBeat(tied, v.Tied)
		m.add(tied)
	}
}

// addNotes adds a value as notes of a metronome mark, in a tuplet if it is one.
func addNotes(m *element, v *score.Value) {
	lengths := []beat.Span{v.Base}
	if v.Tied.Sign() > 0 {
		lengths = append(lengths, v.Tied)
	}
	for i, s := range lengths {
		power, dots, ok := beat.NoteValue(s)
		if !ok {
			panic("musicxml: a tempo equation holds " + s.String() + ", which no single note is")
		}
		note := elem("metronome-note", leaf("metronome-type", typeNames[power]))
		for range dots {
			note.add(elem("metronome-dot"))
		}
		if len(lengths) > 1 {
			note.add(with(elem("metronome-tied"), "type", []string{"start", "stop"}[i]))
		}
		if v.Actual != v.Normal && i == 0 {
			note.add(with(elem("metronome-tuplet",
				number("actual-notes", v.Actual), number("normal-notes", v.Normal)),
				"type", "start", "bracket", "yes", "show-number", "actual"))
		}
		m.add(note)
	}
}
