package task

import (
	"fmt"
	"slices"

	"tieover/layout/rows"
	"tieover/layout/sheet"
	"tieover/score"
)

// searched is how many bars of a section are looked at for an exercise.
const searched = 64

// composite asks for the rhythm of several layers heard as one, over a few
// bars into which nothing is held.
func (m *setter) composite(s *score.Section) (Exercise, string) {
	able := serving(s, notThrough)
	if len(able) < 2 {
		return Exercise{}, reasonsFor(s, "it needs two layers whose loops play from start to end", notThrough)
	}
	given, held := false, false
	for range len(able) { // some processes need others to start them over
		layers := m.draw(able, m.level+1)
		if whole := m.excerpt(s, layers, score.LengthRule{Kind: score.Bars, N: int64(min(s.BarCount(), searched))}); whole != nil {
			e, why := m.compositeOf(s, layers, whole.Sections[0])
			if why == "" {
				return e, ""
			}
			given, held = given || why == givesItAway, held || why == heldInto
		}
	}
	if given {
		return Exercise{}, "every excerpt prints the cycle of " + m.printed.asked.name + " that is to be written; " + hintOnly(Composite)
	}
	if held {
		return Exercise{}, heldInto
	}
	return Exercise{}, m.cannot()
}

// Why an excerpt does not serve: it prints what another exercise asks, or after a pickup
// there is no bar to begin with.
const (
	givesItAway = "it gives the answer away"
	heldInto    = "a sound is held into each bar or none begins there; a longer section would serve"
)

// compositeOf chooses the bars from an excerpt of the layers.
func (m *setter) compositeOf(s *score.Section, layers []int, section *score.Section) (Exercise, string) {
	bars := 2 * m.level
	bars = min(bars, section.BarCount())
	open := openBars(section, section.BarCount()-bars+1)
	if len(open) == 0 {
		return Exercise{}, heldInto
	}
	starts := slices.DeleteFunc(open, func(n int) bool {
		return m.printed.givesAway(s, layers, section, section.Bar(n).Start, section.Bar(n+bars-1).End())
	})
	if len(starts) == 0 {
		return Exercise{}, givesItAway
	}
	from := starts[m.random.IntN(len(starts))]
	to := from + bars - 1
	piece := m.excerpt(s, layers, score.LengthRule{Kind: score.Bars, N: int64(to)})
	if piece == nil {
		return Exercise{}, m.cannot()
	}
	section = piece.Sections[0]
	e := Exercise{
		Title: "Fill in the composite",
		Prompt: "Each row is one player. In the row below them write, for every pulse, who strikes: the player's letter " +
			"if one strikes alone, how many if several strike together, a dot if nobody does. Then clap what you wrote, " +
			"and count: a moment at which several strike is one attack of the composite.",
		Blanks: []string{"attacks of the composite: ____", "of these struck together: ____"},
	}
	all, shared := countHits(section, from, to)
	e.Answer = []string{fmt.Sprintf("attacks of the composite: %d", all), fmt.Sprintf("of these struck together: %d", shared)}
	bare := rows.HideLabels | rows.HideStarts | rows.HideCycles | rows.HideGroups
	e.Given = View{Piece: piece, From: from, To: to, Hide: rows.HideTogether | bare}
	e.Solution = View{Piece: piece, From: from, To: to, Hide: bare}
	m.printed.addBarred(s, layers...)
	players := withoutHints(window(layOut(piece, unmarkedOptions), from, to))
	together := withoutHints(window(layOut(m.line(section), unmarkedOptions), from, to))
	e.Given.Sheet = stacked(unbeamed(players), withBlankBars(together, func(int, *sheet.Bar) bool { return true }))
	e.Solution.Sheet = stacked(players, together)
	return e, ""
}

// hideStarts hides the groups, the numbers of the cycles, and above level 1 also
// where they start.
func (m *setter) hideStarts() rows.Hiding {
	if m.level == 1 {
		return rows.HideStarts | rows.HideGroups
	}
	return rows.HideStarts | rows.HideGroups | rows.HideCycles
}

// openBars lists the bars up to last into whose start nothing is held and on
// whose start something is struck: where an excerpt can begin. Bar 1 is always
// among them, unless something is held into it from the pickup.
func openBars(s *score.Section, last int) []int {
	var open []int
	held := false
	for b := range rows.Of(s, nil).Bars() {
		if b.N > last {
			break
		}
		if b.N == 1 && !held {
			open = append(open, 1)
		} else if b.N > 1 && !held && len(b.Together) > 0 && b.Together[0].At == 0 && len(b.Together[0].Layers) > 0 {
			open = append(open, b.N)
		}
		held = false
		for _, r := range b.Rows {
			held = held || r.Held
		}
	}
	return open
}

// countHits counts the moments of the composite in some bars, and those of
// them that several layers share.
func countHits(s *score.Section, from, to int) (all, shared int) {
	first, end := s.Bar(from).Start, s.Bar(to).End()
	for hit := range s.Moments() {
		if hit.Time < first || hit.Time >= end {
			continue
		}
		all++
		if len(hit.Layers) > 1 {
			shared++
		}
	}
	return all, shared
}
