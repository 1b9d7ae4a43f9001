package musicxml

import (
	"strconv"

	"github.com/beevik/etree"

	"tieover/layout/sheet"
	"tieover/score"
)

// tablature writes a bar of each staff of strings: the voices of the staff above once
// more, each with the way back to the bar's start before it. Of the first voice also the
// silence is written, hidden, for the staff to be full.
func (e *encoder) tablature(l *lines, m *sheet.Measure) {
	for i := range e.part.Staves {
		if e.part.Staves[i].Tuning == nil {
			continue
		}
		for v := range m.Voices {
			voice := &m.Voices[v]
			if voice.Staff != i || voice.Small || v > 0 && !stops(voice) {
				continue
			}
			back(l, m)
			for _, event := range voice.Events {
				e.stopped(l, voice, event)
			}
		}
	}
}

// stops reports whether anything of a voice stands in tablature.
func stops(v *sheet.Voice) bool {
	for _, event := range v.Events {
		if n, ok := event.(*sheet.Note); ok && n.Heads[0].Stop.String > 0 {
			return true
		}
	}
	return false
}

// stopped writes an event as tablature has it: notes by string and fret, without
// stems; what is tied in, and silence, is not seen.
func (e *encoder) stopped(l *lines, v *sheet.Voice, event sheet.Event) {
	n, ok := event.(*sheet.Note)
	if !ok || n.Heads[0].Stop.String == 0 {
		e.unseen(l, v, event)
		return
	}
	for _, g := range n.Graces {
		for i := range g.Heads {
			l.open("note")
			graceSign(l, len(n.Graces) == 1)
			e.stop(l, v, g, i)
		}
	}
	for i := range n.Heads {
		if n.TieIn {
			l.open("note", "print-object", "no")
		} else {
			l.open("note")
		}
		e.stop(l, v, n, i)
	}
}

// stop writes what is in one head's note but for the sign of a grace note, which has no
// length.
func (e *encoder) stop(l *lines, v *sheet.Voice, n *sheet.Note, index int) {
	head := n.Heads[index]
	head.Octave += int8(e.part.Instrument.Octave) // tablature does not transpose
	if index > 0 {
		l.empty("chord")
	}
	e.headPlace(l, nil, &head)
	if n.Length > 0 {
		l.number("duration", int64(n.Length))
	}
	ties(l, "tie", n)
	l.number("voice", int64(v.Number+4))
	noteValue(l, n.Value, false)
	timeModification(l, n.Tuplet, n.Value)
	l.leaf("stem", "none")
	e.notehead(l, nil, &head)
	l.number("staff", int64(v.Staff+1))
	l.open("notations")
	ties(l, "tied", n)
	if index == 0 {
		tupletEnds(l, unnumbered(n.Tuplet), n.TupletStart, n.TupletStop)
	}
	l.open("technical")
	l.number("string", int64(head.Stop.String))
	l.number("fret", int64(head.Stop.Fret))
	l.close("technical")
	l.close("notations")
	l.close("note")
}

// unseen writes the time of an event as a hidden rest.
func (e *encoder) unseen(l *lines, v *sheet.Voice, event sheet.Event) {
	below := sheet.Voice{Number: v.Number + 4, Staff: v.Staff + 1}
	rest := &sheet.Rest{Start: event.At(), Length: event.Span(), Hidden: true}
	switch event := event.(type) {
	case *sheet.Note:
		rest.Value, rest.Tuplet, rest.TupletStart, rest.TupletStop = event.Value, event.Tuplet, event.TupletStart, event.TupletStop
	case *sheet.Rest:
		*rest = *event
		rest.Hidden, rest.Fermata = true, false
	}
	rest.Tuplet = unnumbered(rest.Tuplet)
	e.rest(l, &sheet.Measure{Voices: []sheet.Voice{below}}, &below, rest)
}

// unnumbered is a tuplet whose number is read above; nil for none.
func unnumbered(t *sheet.Tuplet) *sheet.Tuplet {
	if t == nil {
		return nil
	}
	return &sheet.Tuplet{Actual: t.Actual, Normal: t.Normal, Unit: t.Unit}
}

// addStrings adds what a staff of strings is tuned to.
func addStrings(details *etree.Element, tuning []score.Tone) {
	for i, t := range tuning {
		details.AddChild(with(elem("staff-tuning", leaf("tuning-step", string(rune(t.Step))),
			when(t.Alter != 0, number("tuning-alter", int(t.Alter))), number("tuning-octave", int(t.Octave))), "line", strconv.Itoa(i+1)))
	}
}
