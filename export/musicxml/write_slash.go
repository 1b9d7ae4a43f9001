package musicxml

import (
	"strconv"

	"github.com/beevik/etree"

	"tieover/layout/sheet"
	"tieover/score"
)

// addStyles says on which staves slashes, or signs that repeat bars, begin and end.
func (e *encoder) addStyles(a *etree.Element, k edgeKey) {
	style := func(staff int, sign *etree.Element) {
		s := elem("measure-style", sign)
		if len(e.part.Staves) > 1 {
			s.CreateAttr("number", strconv.Itoa(staff+1))
		}
		a.AddChild(s)
	}
	for staff := range e.part.Staves[:min(len(e.part.Staves), len(k.slashes))] {
		switch k.slashes[staff] {
		case begins:
			style(staff, with(elem("slash"), "type", "start", "use-stems", "no"))
		case ends:
			style(staff, with(elem("slash"), "type", "stop"))
		}
		switch k.repeats[staff] {
		case begins:
			style(staff, with(number("measure-repeat", 1), "type", "start"))
		case ends:
			style(staff, with(elem("measure-repeat"), "type", "stop"))
		}
	}
}

func isSlashed(m *sheet.Measure, staff int) bool {
	for i := range m.Voices {
		if v := &m.Voices[i]; v.Staff == staff && v.As == score.AsSlashes {
			if _, note := v.Events[0].(*sheet.Note); note {
				return true
			}
		}
	}
	return false
}

// slash writes where a slash stands: on the middle line of its staff.
func (e *encoder) slash(l *lines, m *sheet.Measure, v *sheet.Voice) {
	step, octave := e.part.MiddleIn(m, v.Staff)
	unpitched(l, step, octave)
}
