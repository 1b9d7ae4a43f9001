package musicxml

import (
	"github.com/beevik/etree"

	"tieover/layout/sheet"
)

// timeModification says how much the value is shortened; the unit only where
// it differs from the note's own value.
func timeModification(t *sheet.Tuplet, v sheet.Value) *etree.Element {
	made := elem("time-modification", number("actual-notes", t.Actual), number("normal-notes", t.Normal))
	if t.Unit != v {
		made.AddChild(leaf("normal-type", typeNames[t.Unit.Power]))
		for range t.Unit.Dots {
			made.AddChild(elem("normal-dot"))
		}
	}
	return made
}

// addTuplet adds the signs at a tuplet's first and last note.
func addTuplet(notations *etree.Element, t *sheet.Tuplet, start, stop bool) {
	if start {
		bracket, shown := "no", "actual"
		if t.Bracket {
			bracket = "yes"
		}
		switch {
		case !t.ShowNumber:
			shown = "none"
		case t.ShowRatio:
			shown = "both"
		}
		notations.AddChild(with(elem("tuplet"), "type", "start", "number", "1", "bracket", bracket, "show-number", shown))
	}
	if stop {
		notations.AddChild(with(elem("tuplet"), "type", "stop", "number", "1"))
	}
}
