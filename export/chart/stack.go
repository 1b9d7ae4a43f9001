package chart

import (
	"slices"

	"tieover/layout/rows"
	"tieover/score"
)

// lines are what stands over or under one row, in the order in which they are written.
// An attack of two tones has one on each of two lines.
type lines [][]token

// put adds a token to line k.
func (l *lines) put(k int, t token) {
	for len(*l) <= k {
		*l = append(*l, nil)
	}
	(*l)[k] = append((*l)[k], t)
}

// pile adds texts at a column, each to a line of its own.
func (l *lines) pile(col int, texts []string) {
	for k, text := range texts {
		l.put(k, token{col, text})
	}
}

// add adds the lines of a bar that begins at a column of the row.
func (l *lines) add(col int, bar lines) {
	for k, tokens := range bar {
		for _, t := range tokens {
			l.put(k, token{col + t.col, t.text})
		}
	}
}

// within is the part in columns [from, to).
func (l lines) within(from, to int) lines {
	var kept lines
	for _, tokens := range l {
		kept = append(kept, within(tokens, from, to))
	}
	return kept
}

// setNames stacks the pitch or drum names of an attack, the highest first, if
// they are asked for.
func (s *setter) setNames(stack *lines, layer int, c *rows.Cell, col int) {
	if s.opt.Pitches && c.Sign.Struck() {
		stack.pile(col, s.toneNames(layer, c.Tones))
	}
}

// setTouches stacks the signs of how an attack is played, if they are asked for.
func (s *setter) setTouches(stack *lines, c *rows.Cell, col int) {
	if !s.opt.Touches {
		return
	}
	if c.Led {
		s.lead(stack, col-1)
	}
	var texts []string
	for _, t := range c.Touches() {
		if sign := touches[t].sign; sign != "" {
			texts = append(texts, sign)
		}
	}
	stack.pile(col, texts)
}

// leading is the sign before the stroke that grace notes lead in to.
const leading = ","

// lead puts it on the first line of the stack that is free there.
func (s *setter) lead(stack *lines, col int) {
	k := slices.IndexFunc(*stack, func(line []token) bool { return len(line) == 0 || line[len(line)-1].col < col })
	if k < 0 {
		k = len(*stack)
	}
	stack.put(k, token{col, leading})
}

// touches are the signs and names of touches: those of notation where a
// typewriter has them. Flams and drags are grace notes.
var touches = map[score.Touch]struct{ sign, name string }{
	score.Accented: {">", "accent"}, score.Marcato: {"^", "marcato"}, score.Ghost: {"g", "ghost (faint)"},
	score.Staccato: {"'", "staccato"}, score.Tenuto: {"-", "tenuto"},
	score.Roll: {"t", "roll"}, score.Tremolo: {"t", "tremolo"}, score.Trill: {"t", "trill"},
}

// touchLegend explains the signs of touches that appear.
func (s *setter) touchLegend() []string {
	var items []string
	last := ""
	if s.opt.Touches {
		for _, t := range s.sum.Touches.Each() {
			if one := touches[t]; one.sign == last && len(items) > 0 {
				items[len(items)-1] += ", " + one.name
			} else if one.sign != "" {
				items, last = append(items, one.sign+" "+one.name), one.sign
			}
		}
		if s.sum.Led {
			items = append(items, leading+" grace notes")
		}
	}
	if s.opt.Touches && s.sum.Slurred {
		items = append(items, `\__/ slurred`)
	}
	return items
}
