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
	for _, i := range steady(s) {
		if audible(s.Layers[i]) {
			able = append(able, i)
		}
	}
	layers := m.draw(able, m.level)
	if len(layers) == 0 {
		return Exercise{}, because(s, "it needs a layer that keeps one grouping of two groups or more and strikes each once", either(notSteady, notAudible))
	}
	long := m.excerpt(s, layers, score.LengthRule{Kind: score.Bars, N: 16})
	if long == nil {
		return Exercise{}, "the layer cannot be cut out"
	}
	bars := 2
	for _, l := range long.Sections[0].Layers {
		twice := 2 * l.Unit * beat.Time(pulses(l.Patterns[0].Groups))
		for bars < 16 && long.Sections[0].Bar(bars).End() < twice {
			bars++
		}
		if long.Sections[0].Bar(bars).End() < twice {
			return Exercise{}, "no layer goes round twice within 16 bars"
		}
	}
	piece := m.excerpt(s, layers, score.LengthRule{Kind: score.Bars, N: int64(bars)})
	if piece == nil {
		return Exercise{}, "the layer cannot be cut out"
	}
	e := Exercise{Title: "Name the groupings",
		Prompt: "Each player repeats one grouping, from the start of bar 1. Count the pulses from attack to attack, find " +
			"where the row begins again, and write the shortest grouping that repeats, as in 3+2+2."}
	for i, l := range piece.Sections[0].Layers {
		e.Blanks = append(e.Blanks, fmt.Sprintf("%s: ____________", score.LayerLetter(i)))
		e.Answer = append(e.Answer, fmt.Sprintf("%s: %s", score.LayerLetter(i), items(shortest(l.Patterns[0].Groups))))
	}
	e.Given = View{Piece: piece, From: 1, To: bars, Hide: rows.HideLabels | rows.DropTogether | rows.HideStarts | rows.HideGroups}
	if m.level > 1 {
		e.Given.Hide |= rows.HideCycles
	}
	e.Solution = View{Piece: piece, From: 1, To: bars, Hide: rows.HideLabels}
	e.Given.Sheet = hidden(unbeamed(written(piece, plain)))
	e.Solution.Sheet = written(piece, layout.Options{})
	return e, ""
}

// audible reports whether a layer's grouping can be told from its attacks: one
// pattern that nothing changes, struck once a group from the very start.
func audible(l *score.Layer) bool { return notAudible(l) == "" }

// shortest returns the shortest run of groups that makes up the whole by
// repetition.
func shortest(groups []score.Item) []score.Item {
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
