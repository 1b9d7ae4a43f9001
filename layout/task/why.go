package task

import (
	"strings"

	"tieover/score"
)

// mostReasons is of how many layers it is said why they do not serve.
const mostReasons = 3

// lack says why a layer does not serve an exercise, "" if it does as far as this goes.
type lack func(*score.Layer) string

// lacks returns the first reason why a layer does not serve.
func lacks(l *score.Layer, whys ...lack) string {
	for _, why := range whys {
		if text := why(l); text != "" {
			return text
		}
	}
	return ""
}

// serving lists the layers that lack nothing.
func serving(s *score.Section, whys ...lack) []int {
	var list []int
	for i, l := range s.Layers {
		if lacks(l, whys...) == "" {
			list = append(list, i)
		}
	}
	return list
}

// reasonsFor says what an exercise needs, and what each layer lacks of it.
func reasonsFor(s *score.Section, need string, whys ...lack) string {
	var reasons []string
	for _, l := range s.Layers {
		switch text := lacks(l, whys...); {
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

// notThrough says why a loop does not play from the start, or the pickup, to the end, cut
// at barlines or not.
func notThrough(l *score.Layer) string {
	switch {
	case l.Line != nil:
		return "is a free line"
	case l.EnterAt != nil && !l.InPickup():
		return "enters later"
	case l.LeaveAt != nil:
		return "leaves early"
	case l.Loop == score.CutRealignment:
		return "starts over at realignments"
	}
	return ""
}

// notLooping says why a loop cannot be shown in bars in which it plays.
func notLooping(l *score.Layer) string {
	switch {
	case l.Line != nil:
		return "is a free line"
	case l.EnterAt.WaitsForRealignment():
		return "enters at a realignment"
	case l.LeaveAt.WaitsForRealignment():
		return "leaves at a realignment"
	case l.Loop == score.CutRealignment:
		return "starts over at realignments"
	}
	return ""
}

// steady is what a layer must be whose cycles nothing cuts and no exception breaks.
var steady = []lack{notLooping, notRunning, notRegular}

func notRunning(l *score.Layer) string {
	if l.Loop != score.Run {
		return "is cut"
	}
	return ""
}

func notRegular(l *score.Layer) string {
	if len(l.Except) > 0 {
		return "has exceptions"
	}
	return ""
}

// notAudible says why a grouping cannot be heard from its attacks. It can where one pattern that
// nothing changes is struck once a group from the very start.
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

// notFromTheStart says why a first cycle does not begin with the layer.
func notFromTheStart(l *score.Layer) string {
	if l.Offset != 0 {
		return "has an offset"
	}
	return ""
}
