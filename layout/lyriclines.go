package layout

import (
	"slices"

	"tieover/score"
)

// lyricLines counts, for each layer, the lines of words that stand above its own on
// its staff: those of the layers before it, so that no line has the words of two.
func (p *partPlan) lyricLines(sections []*score.Section) map[string]int {
	above, taken := map[string]int{}, make([]int, len(p.staves))
	for _, v := range p.voices {
		names := v.Layers
		if names == nil {
			names = []string{v.Layer}
		}
		for _, name := range names {
			above[name] = taken[v.Staff-1]
			taken[v.Staff-1] += p.linesOf(sections, name)
		}
	}
	return above
}

// linesOf is how many lines of words the player's layers of a name have at most.
func (p *partPlan) linesOf(sections []*score.Section, name string) int {
	most := 0
	for i, s := range sections {
		for _, j := range p.player.Layers[i] {
			if l := s.Layers[j]; l.Name == name {
				most = max(most, len(l.Verses), min(1, len(l.Syllables)))
			}
		}
	}
	return most
}

// below moves words down by so many lines.
func below(lines int, words []score.Lyric) []score.Lyric {
	if lines == 0 || words == nil {
		return words
	}
	return append(make([]score.Lyric, lines), words...)
}

// sungTogether joins the words of two sounds of one moment, which have no line in common.
func sungTogether(a, b []score.Lyric) []score.Lyric {
	if len(a) < len(b) {
		a, b = b, a
	}
	if len(b) == 0 {
		return a
	}
	joined := slices.Clone(a)
	for line, y := range b {
		if y != (score.Lyric{}) {
			joined[line] = y
		}
	}
	return joined
}
