package chart

import (
	"strings"

	"tieover/export/chart/terminal"
	"tieover/layout/rows"
	"tieover/score"
)

// setWords stacks what is sung or spoken at a cell, a line a verse, if it is asked
// for.
func (s *setter) setWords(stack *lines, c *rows.Cell, col int) {
	if !s.opt.Sung {
		return
	}
	for verse, y := range c.Words {
		if y.Text != "" {
			stack.put(verse, token{col, s.word(y)})
		}
	}
}

// word writes a syllable, with a hyphen where its word goes on.
func (s *setter) word(y score.Lyric) string {
	text := s.spell(y.Text)
	if y.Syllabic == score.WordBegins || y.Syllabic == score.WordGoesOn {
		text += "-"
	}
	return text
}

// longestWord is the width of the widest of all syllables.
func (s *setter) longestWord() int {
	longest := 0
	for _, i := range s.chart.Layers {
		l := s.chart.Section.Layers[i]
		for _, words := range l.Syllables {
			for _, text := range strings.Fields(words) {
				longest = max(longest, terminal.Width(s.spell(text)))
			}
		}
		for _, v := range l.Verses {
			for _, y := range v.Lyrics {
				longest = max(longest, terminal.Width(s.word(y)))
			}
		}
	}
	return longest
}
