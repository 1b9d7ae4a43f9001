package musicxml

import "tieover/layout/sheet"

// timeModification says how much the value is shortened; the unit only where
// it differs from the note's own value.
func timeModification(l *lines, t *sheet.Tuplet, v sheet.Value) {
	if t == nil {
		return
	}
	l.open("time-modification")
	l.number("actual-notes", int64(t.Actual))
	l.number("normal-notes", int64(t.Normal))
	if t.Unit != v {
		l.leaf("normal-type", typeNames[t.Unit.Power])
		for range t.Unit.Dots {
			l.empty("normal-dot")
		}
	}
	l.close("time-modification")
}

// tupletEnds writes the signs at a tuplet's first and last note.
func tupletEnds(l *lines, t *sheet.Tuplet, start, stop bool) {
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
		l.empty("tuplet", "type", "start", "number", "1", "bracket", bracket, "show-number", shown)
	}
	if stop {
		l.empty("tuplet", "type", "stop", "number", "1")
	}
}
