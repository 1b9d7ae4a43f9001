package task

import (
	"fmt"

	"tieover/layout"
	"tieover/layout/rows"
	"tieover/score"
	"tieover/score/beat"
)

// groups asks for the grouping of one layer or more, told from its attacks.
func (m *setter) groups(s *score.Section) (Exercise, string) {
	var able []int
	toldOf, quick := "", ""
	for _, i := range steadyLayers(s) {
		l := s.Layers[i]
		if !audible(l) {
			continue
		}
		switch loop := shortestLoop(l.Patterns[0].Groups); {
		case m.printed.names(items(loop)):
			toldOf = l.Name
		case l.Unit*beat.Time(score.CountPulses(loop)) < s.Bar(1).End():
			quick = l.Name
		default:
			able = append(able, i)
		}
	}
	layers := m.draw(able, m.level+1)
	switch {
	case len(layers) > 0:
	case toldOf != "":
		return Exercise{}, "the grouping of " + toldOf + " is printed elsewhere on the sheet; another one would serve"
	case quick != "":
		return Exercise{}, "the loop of " + quick + " comes round within bar 1; one of a bar or more would serve"
	default:
		return Exercise{}, reasonsFor(s, "it needs a layer that keeps one grouping of two groups or more and strikes each once", firstReason(notSteady, notAudible))
	}
	long := m.excerpt(s, layers, score.LengthRule{Kind: score.Bars, N: 16})
	if long == nil {
		return Exercise{}, m.cannot()
	}
	bars := 2
	for _, l := range long.Sections[0].Layers {
		twice := 2 * l.Unit * beat.Time(score.CountPulses(l.Patterns[0].Groups))
		for bars < 16 && long.Sections[0].Bar(bars).End() < twice {
			bars++
		}
		if long.Sections[0].Bar(bars).End() < twice {
			return Exercise{}, "no layer goes round twice within 16 bars; a shorter loop would serve"
		}
	}
	piece := m.excerpt(s, layers, score.LengthRule{Kind: score.Bars, N: int64(bars)})
	if piece == nil {
		return Exercise{}, m.cannot()
	}
	e := Exercise{Title: "Name the groupings",
		Prompt: "Each player repeats one grouping, from the start of bar 1. Count the pulses from attack to attack, find " +
			"where the row begins again, and write the shortest grouping that repeats: its numbers in order, joined by +."}
	for i, l := range piece.Sections[0].Layers {
		e.Blanks = append(e.Blanks, fmt.Sprintf("%s: ____________", score.LayerLetter(i)))
		e.Answer = append(e.Answer, fmt.Sprintf("%s: %s", score.LayerLetter(i), bothWays(l.Patterns[0].Groups)))
	}
	m.printed.addBarred(s, layers...)
	e.Given = View{Piece: piece, From: 1, To: bars, Hide: rows.HideLabels | rows.DropTogether | m.hideStarts()}
	e.Solution = View{Piece: piece, From: 1, To: bars, Hide: rows.HideLabels}
	e.Given.Sheet = withoutHints(unbeamed(layOut(piece, unmarkedOptions)))
	e.Solution.Sheet = layOut(piece, layout.Options{})
	return e, ""
}

// audible reports whether a layer's grouping can be told from its attacks: one
// pattern that nothing changes, struck once a group from the very start.
func audible(l *score.Layer) bool { return notAudible(l) == "" }

// shortestLoop returns the shortest run of groups that makes up the whole by
// repetition.
func shortestLoop(groups []score.Item) []score.Item {
	n := len(groups)
	for k := 1; k < n; k++ {
		if n%k != 0 {
			continue
		}
		same := true
		for i := k; i < n && same; i++ {
			same = groups[i] == groups[i-k]
		}
		if same {
			return groups[:k]
		}
	}
	return groups
}

// bothWays writes the shortest grouping, and the loop as the spec has it where
// that is longer: X marks its cycles, so a student may well give it.
func bothWays(groups []score.Item) string {
	short := shortestLoop(groups)
	if len(short) == len(groups) {
		return items(groups)
	}
	return fmt.Sprintf("%s; right too, by the loop that the chart counts: %s", items(short), items(groups))
}

// items writes groups as a spec does.
func items(groups []score.Item) string {
	text := ""
	for i, item := range groups {
		if i > 0 {
			text += "+"
		}
		text += fmt.Sprint(item.Size)
	}
	return text
}
