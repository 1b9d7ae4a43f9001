package report

import (
	"fmt"
	"strconv"

	"tieover/score"
	"tieover/score/beat"
	"tieover/score/process"
)

// played says which groups have no figure.
func (t *text) played() {
	for i, l := range t.s.Layers {
		if plain := t.f.Layers[i].Plain; len(plain) > 0 {
			sizes := each(plain, strconv.Itoa)
			t.item(fmt.Sprintf("%s: groups of %s have no figure; strike: %v plays them.", l.Name, beat.Listed(sizes, "and"), l.Strike))
		}
	}
}

// process says what a process does, in words. Later is behind, earlier ahead.
func (t *text) process(l *score.Layer, p score.Process) string {
	passes := "after each pass "
	if p.After > 1 {
		passes = fmt.Sprintf("after every %d passes ", p.After)
	}
	switch p.Kind {
	case process.Grow:
		return passes + growthInWords(p)
	case process.Rotate:
		way := "further on"
		if p.By < 0 {
			way = "further back"
		}
		return passes + fmt.Sprintf("the cycle starts %s %s", count(int(max(p.By, -p.By)), "group"), way)
	case process.Shift:
		way := "behind (later)"
		if p.By < 0 {
			way = "ahead (earlier)"
		}
		span := beat.Time(max(p.By, -p.By)) * l.Unit
		return passes + fmt.Sprintf("the pattern moves %s %s", t.both(span, l.Pulse), way)
	case process.Retrograde:
		switch p.After {
		case 1:
			return "each cycle is played backwards"
		case 2:
			return "every other cycle is played backwards"
		}
		return fmt.Sprintf("one cycle in %d is played backwards", p.After)
	case process.Append:
		return passes + fmt.Sprintf("a group of %d is added at the end", p.Size)
	}
	panic(fmt.Sprintf("report: no words for process %d", p.Kind)) // a kind added without us
}

func growthInWords(p score.Process) string {
	verb, from := "grows", ", taken from"
	if p.By < 0 {
		verb, from = "shrinks", ", given to"
	}
	sentence := fmt.Sprintf("group %d %s by %d", p.Group, verb, max(p.By, -p.By))
	if p.From == 0 {
		return sentence + ", and so does the cycle"
	}
	return sentence + fmt.Sprintf("%s group %d", from, p.From)
}
