package chart

import (
	"slices"

	"tieover/layout/rows"
	"tieover/score"
)

// A stack is what stands over or under one row: lines of tokens, in the order
// in which they are written. An attack of two tones has one on each of two lines.

// setNames stacks the pitch or drum names of an attack, the highest first, if
// they are asked for.
func (s *setter) setNames(stack *[][]token, layer int, c *rows.Cell, col int) {
	if s.opt.Pitches && c.Sign.Struck() {
		pile(stack, col, s.toneNames(layer, c.Tones))
	}
}

// setTouches stacks the signs of how an attack is played, if they are asked for.
func (s *setter) setTouches(stack *[][]token, c *rows.Cell, col int) {
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
	pile(stack, col, texts)
}

// leading is the sign before the stroke that grace notes lead in to.
const leading = ","

// lead puts it on the first line of the stack that is free there.
func (s *setter) lead(stack *[][]token, col int) {
	k := slices.IndexFunc(*stack, func(line []token) bool { return len(line) == 0 || line[len(line)-1].col < col })
	if k < 0 {
		k = len(*stack)
		*stack = append(*stack, nil)
	}
	(*stack)[k] = append((*stack)[k], token{col, leading})
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

// pile adds texts at a column, each to a line of its own.
func pile(stack *[][]token, col int, texts []string) {
	for i, text := range texts {
		if i == len(*stack) {
			*stack = append(*stack, nil)
		}
		(*stack)[i] = append((*stack)[i], token{col, text})
	}
}

// addStack adds the stack of a bar that begins at a column of the row.
func addStack(stack *[][]token, col int, bar [][]token) {
	for i, tokens := range bar {
		if i == len(*stack) {
			*stack = append(*stack, nil)
		}
		for _, t := range tokens {
			(*stack)[i] = append((*stack)[i], token{col + t.col, t.text})
		}
	}
}

// stackWithin is the part of a stack in columns [from, to).
func stackWithin(stack [][]token, from, to int) [][]token {
	var kept [][]token
	for _, tokens := range stack {
		kept = append(kept, within(tokens, from, to))
	}
	return kept
}
