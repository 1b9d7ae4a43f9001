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
// bars in which all of them play and into which nothing is held.
func (m *setter) composite(s *score.Section) (Exercise, string) {
	needs := []lack{notLooping, func(l *score.Layer) string {
		if l.Enters >= s.Bar(min(s.BarCount(), searched)).End() {
			return fmt.Sprintf("enters after bar %d", searched)
		}
		return ""
	}}
	able := serving(s, needs...)
	if len(able) < 2 {
		return Exercise{}, reasonsFor(s, "it needs two layers with loops", needs...)
	}
	whys := map[string]bool{}
	for _, apart := range []bool{true, false} { // bars all in unison only where there are no others
		for n := min(m.level+1, len(able)); n >= 2; n-- {
			if e, done := m.compositeOfAny(s, able, n, apart, whys); done {
				return e, ""
			}
		}
	}
	switch {
	case whys[givesItAway]:
		return Exercise{}, "every excerpt prints the cycle of " + m.printed.asked.name + " that is to be written; " + hintOnly(Composite)
	case whys[heldInto]:
		return Exercise{}, heldInto
	case whys[notTogether]:
		return Exercise{}, notTogether
	}
	return Exercise{}, m.cannot()
}

// Why an excerpt does not serve: it prints what another exercise asks, there is no bar
// to begin with, no time at which all play, or they are never apart.
const (
	givesItAway = "it gives the answer away"
	heldInto    = "a sound is held into each bar or none begins there; a longer section would serve"
	notTogether = "the layers play together for too few bars; a layer that enters earlier or leaves later would serve"
	inUnison    = "the layers always strike together"
)

// compositeOfAny draws n of the layers, until some serve; whys gathers why others do not.
func (m *setter) compositeOfAny(s *score.Section, able []int, n int, apart bool, whys map[string]bool) (Exercise, bool) {
	tried := map[string]bool{}
	for range 8 * len(able) { // some processes need others to start them over
		layers := m.draw(able, n)
		if tried[fmt.Sprint(layers)] {
			continue
		}
		tried[fmt.Sprint(layers)] = true
		whole := m.excerpt(s, layers, score.LengthRule{Kind: score.Bars, N: int64(min(s.BarCount(), searched))})
		if whole == nil {
			continue
		}
		e, why := m.compositeOf(s, layers, whole.Sections[0], apart)
		if why == "" {
			return e, true
		}
		whys[why] = true
	}
	return Exercise{}, false
}

// compositeOf chooses the bars from an excerpt of the layers: if apart, some in
// which not all is struck together.
func (m *setter) compositeOf(s *score.Section, layers []int, section *score.Section, apart bool) (Exercise, string) {
	bars := min(2*m.level, section.BarCount())
	allPlay := func(from int) bool {
		first, last := section.Bar(from), section.Bar(from+bars-1)
		return !slices.ContainsFunc(section.Layers, func(l *score.Layer) bool {
			return l.Enters > first.Start || l.Leaves < min(last.End(), section.Length)
		})
	}
	starts := numbers(section.BarCount() - bars + 1)
	for _, step := range []struct {
		serves func(from int) bool
		why    string
	}{
		{allPlay, notTogether},
		{openBars(section, len(starts)), heldInto},
		{func(from int) bool {
			return !m.printed.givesAway(s, layers, section, section.Bar(from).Start, section.Bar(from+bars-1).End())
		}, givesItAway},
		{func(from int) bool {
			all, shared := countHits(section, from, from+bars-1)
			return !apart || shared < all
		}, inUnison},
	} {
		if starts = slices.DeleteFunc(starts, func(from int) bool { return !step.serves(from) }); len(starts) == 0 {
			return Exercise{}, step.why
		}
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

// numbers are 1 to n.
func numbers(n int) (list []int) {
	for i := range n {
		list = append(list, i+1)
	}
	return list
}

// openBars tells of each bar up to last whether an excerpt can begin with it: nothing
// is held into its start, and something is struck there. In bar 1 nothing need be.
func openBars(s *score.Section, last int) func(n int) bool {
	open := map[int]bool{}
	held := false
	for b := range rows.Of(s, nil).Bars() {
		if b.N > last {
			break
		}
		open[b.N] = !held && (b.N == 1 || len(b.Together) > 0 && b.Together[0].At == 0 && len(b.Together[0].Layers) > 0)
		held = false
		for _, r := range b.Rows {
			held = held || r.Held
		}
	}
	return func(n int) bool { return open[n] }
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
