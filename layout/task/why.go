package task

import (
	"strings"

	"tieover/score"
)

// mostReasons is of how many layers it is said why they do not serve.
const mostReasons = 3

// reasonsFor says what an exercise needs, and what each layer lacks of it; why
// returns "" for a layer that lacks nothing that it knows of.
func reasonsFor(s *score.Section, need string, why func(*score.Layer) string) string {
	var reasons []string
	for _, l := range s.Layers {
		switch text := why(l); {
		case text == "":
		case len(reasons) == mostReasons:
			return need + "; " + strings.Join(reasons, ", ") + " …"
		default:
			reasons = append(reasons, l.Name+" "+text)
		}
	}
	if len(reasons) == 0 {
		return need
	}
	return need + "; " + strings.Join(reasons, ", ")
}

// cannot says why an excerpt could not be made, and what would allow it.
func (m *setter) cannot() string {
	why := "its layers cannot play apart from the others"
	hint := "layers that wait for no other would serve"
	if m.refused != nil {
		why += ": " + m.refused.Text
		if m.refused.Hint != "" {
			hint = m.refused.Hint
		}
	}
	return why + "; " + hint
}

// notThrough says why a layer's loop does not play from start to end, "" if it
// does.
func notThrough(l *score.Layer) string {
	switch {
	case l.Line != nil:
		return "is a free line"
	case l.InPickup():
		return "begins in the pickup"
	case l.EnterAt != nil:
		return "enters later"
	case l.LeaveAt != nil:
		return "leaves early"
	case l.Loop == score.CutRealignment:
		return "starts over at realignments"
	}
	return ""
}

// notSteady says why a layer is not steady, "" if it is.
func notSteady(l *score.Layer) string {
	switch why := notThrough(l); {
	case why != "":
		return why
	case l.Loop != score.Run:
		return "is cut"
	case len(l.Except) > 0:
		return "has exceptions"
	}
	return ""
}

// notAudible says why a layer's grouping cannot be told from its attacks, ""
// if it can.
func notAudible(l *score.Layer) string {
	switch {
	case l.Line != nil:
		return "is a free line"
	case len(l.Patterns) != 1:
		return "takes several groupings in turn"
	case len(l.Process) > 0:
		return "changes by a process"
	case l.Patterns[0].Box != nil:
		return "is written as a box"
	case l.Strike == score.StrikeAll:
		return "strikes every pulse"
	case l.Offset != 0:
		return "has an offset"
	case len(l.Patterns[0].Groups) < 2:
		return "has a single group"
	}
	for _, item := range l.Patterns[0].Groups {
		switch {
		case item.Blank:
			return "has silent groups"
		case l.Figures[item.Size] != nil:
			return "has figures"
		}
	}
	return ""
}

// notFromTheStart says why a layer's first cycle does not begin the section.
func notFromTheStart(l *score.Layer) string {
	if l.Offset != 0 {
		return "has an offset"
	}
	return ""
}

func notExcepted(l *score.Layer) string {
	if len(l.Except) > 0 {
		return "has exceptions"
	}
	return ""
}

// firstReason returns the first reason of several.
func firstReason(whys ...func(*score.Layer) string) func(*score.Layer) string {
	return func(l *score.Layer) string {
		for _, why := range whys {
			if text := why(l); text != "" {
				return text
			}
		}
		return ""
	}
}
