package musicxml

import (
	"github.com/beevik/etree"

	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/beat"
)

// tempo returns a tempo mark with its playing speed in quarters a minute. Its
// words are a direction of their own before it, and so in parentheses after it is
// an equation of note values, so that a reader that does not know equations still
// has the tempo.
func (e *encoder) tempo(mark *sheet.Mark, v voicePlace) []*etree.Element {
	t := mark.Tempo
	var all []*etree.Element
	if t.Words != "" {
		all = append(all, e.tempoDirection(with(e.words(t.Words), "font-style", "normal", "font-weight", "bold"), mark, v))
	}
	if t.Kind == score.Steady {
		metronome := elem("metronome")
		addBeat(metronome, t.Beat)
		metronome.AddChild(leaf("per-minute", t.RateText()))
		all = append(all, e.tempoDirection(metronome, mark, v))
	}
	all[len(all)-1].AddChild(playedAt(t, 0))
	if t.Old != nil {
		all = append(all, e.tempoDirection(with(equation(t.Old, t.New), "parentheses", "yes"), mark, v))
	}
	return all
}

// playedAt is a playing speed by itself, from so far inside a note on.
func playedAt(t *score.Tempo, offset beat.Time) *etree.Element {
	return with(elem("sound", when(offset != 0, ticks("offset", offset))), "tempo", t.Quarters.Rounded(6))
}

// gradual is the beginning of a tempo that changes all the time, with its line.
func (e *encoder) gradual(mark *sheet.Mark, v voicePlace) *etree.Element {
	d := e.onTop(e.direction("above", with(e.words(mark.Text), "font-style", "italic"), mark.Offset, v.staff))
	d.InsertChildAt(1, elem("direction-type", dashes("start")))
	return d
}

func dashes(end string) *etree.Element { return with(elem("dashes"), "type", end, "number", "1") }

func (e *encoder) tempoDirection(sign *etree.Element, mark *sheet.Mark, v voicePlace) *etree.Element {
	return e.onTop(with(e.direction("above", sign, mark.Offset, v.staff), "directive", "yes"))
}

// equation writes old = new. Values of a tuplet need notes rather than beat
// units, which have no tuplets.
func equation(old, new *score.Value) *etree.Element {
	m := elem("metronome")
	if old.Actual == old.Normal && new.Actual == new.Normal {
		addValueUnits(m, old)
		addValueUnits(m, new)
		return m
	}
	addNotes(m, old)
	m.AddChild(leaf("metronome-relation", "equals"))
	addNotes(m, new)
	return m
}

// noteOf is the note of a value that a tempo counts or an equation holds.
func noteOf(s beat.Span) (power, dots int) {
	power, dots, ok := beat.NoteValue(s)
	if !ok {
		panic("musicxml: a tempo mark holds " + s.String() + ", which no single note is")
	}
	return power, dots
}

// addBeat adds a plain or dotted value as a beat unit.
func addBeat(m *etree.Element, s beat.Span) {
	power, dots := noteOf(s)
	m.AddChild(leaf("beat-unit", typeNames[power]))
	for range dots {
		m.AddChild(elem("beat-unit-dot"))
	}
}

func addValueUnits(m *etree.Element, v *score.Value) {
	addBeat(m, v.Base)
	if v.Tied.Sign() > 0 {
		tied := elem("beat-unit-tied")
		addBeat(tied, v.Tied)
		m.AddChild(tied)
	}
}

// addNotes adds a value as notes of a metronome mark, in a tuplet if it is one.
func addNotes(m *etree.Element, v *score.Value) {
	lengths := []beat.Span{v.Base}
	if v.Tied.Sign() > 0 {
		lengths = append(lengths, v.Tied)
	}
	for i, s := range lengths {
		power, dots := noteOf(s)
		note := elem("metronome-note", leaf("metronome-type", typeNames[power]))
		for range dots {
			note.AddChild(elem("metronome-dot"))
		}
		if len(lengths) > 1 {
			note.AddChild(with(elem("metronome-tied"), "type", []string{"start", "stop"}[i]))
		}
		if v.Actual != v.Normal && i == 0 {
			note.AddChild(with(elem("metronome-tuplet",
				number("actual-notes", v.Actual), number("normal-notes", v.Normal)),
				"type", "start", "bracket", "yes", "show-number", "actual"))
		}
		m.AddChild(note)
	}
}
