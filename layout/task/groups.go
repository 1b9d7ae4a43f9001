package task

import (
	"fmt"
	"slices"

	"tieover/layout"
	"tieover/layout/rows"
	"tieover/score"
	"tieover/score/beat"
)

// groups asks for the grouping of one layer or more, as its attacks make it heard.
func (m *setter) groups(s *score.Section) (Exercise, string) {
	var able []int
	printedOf, quick := "", ""
	needs := slices.Concat(steady, []lack{notAudible})
	for _, i := range serving(s, needs...) {
		l := s.Layers[i]
		switch loop := shortestLoop(l.Patterns[0].Groups); {
		case m.printed.names(items(loop)):
			printedOf = l.Name
		case l.Unit*beat.Time(score.CountPulses(loop)) < s.Bar(1).End():
			quick = l.Name
		default:
			able = append(able, i)
		}
	}
	layers := m.draw(able, m.level+1)
	switch {
	case len(layers) > 0:
	case printedOf != "":
		return Exercise{}, "the grouping of " + printedOf + " is printed elsewhere on the sheet; another one would serve"
	case quick != "":
		return Exercise{}, "the loop of " + quick + " comes round within bar 1; one of a bar or more would serve"
	default:
		return Exercise{}, reasonsFor(s, "it needs a layer that keeps one grouping of two groups or more and strikes each once", needs...)
	}
	long := m.excerptOf(s, layers, score.LengthRule{Kind: score.Bars, N: 16}, fromBar1)
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
	piece := m.excerptOf(s, layers, score.LengthRule{Kind: score.Bars, N: int64(bars)}, fromBar1)
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

// shortestLoop returns the shortest run of groups that makes up the whole by
// repetition.
func shortestLoop(groups []score.Item) []score.Item {
	n := len(groups)
	for k := 1; k < n; k++ {
		if n%k == 0 && slices.Equal(groups[k:], groups[:n-k]) {
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

// items writes the sizes of groups as a spec does.
func items(groups []score.Item) string {
	return beat.SumOf(groups, func(i score.Item) (int, bool) { return i.Size, false })
}
