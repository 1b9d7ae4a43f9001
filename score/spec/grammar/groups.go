package grammar

import (
	"slices"
	"strings"

	"tieover/score"
)

// Bounds of a cycle.
const (
	MaxGroups = 4096 // in a cycle
	MaxPulses = 4096 // pulses in a group
	maxNested = 8
)

// run is a part of a cycle as it is written: a group or something in
// parentheses, some number of times.
type run struct {
	item  score.Item
	inner []run // nil for a single group
	times int64
}

// Groups reads "3+2+2", "3x4", "(3+2)x3+rest 2".
func Groups(text string) ([]score.Item, *Slip) {
	p := groupParser{text: text, words: Split(text, "+()")}
	if len(p.words) == 0 {
		return nil, Wrong(0, "write the sizes joined by +, as in 3+2+2", "there are no groups")
	}
	runs, bad := p.sum(0)
	if bad != nil {
		return nil, bad
	}
	if p.next < len(p.words) {
		return nil, Wrong(p.words[p.next].At, "remove it, or open one before", "a ) without its (")
	}
	if count(runs) > MaxGroups {
		return nil, Wrong(0, "describe the loop with fewer groups", "a cycle has more than %d groups", MaxGroups)
	}
	items := expand(nil, runs)
	if !slices.ContainsFunc(items, func(i score.Item) bool { return !i.Blank }) {
		return nil, Wrong(0, "let at least one group sound", "every group is a rest")
	}
	return items, nil
}

type groupParser struct {
	text  string
	words []Word
	next  int
}

// peek returns the next word, "" at the end.
func (p *groupParser) peek() Word {
	if p.next < len(p.words) {
		return p.words[p.next]
	}
	return Word{At: len(p.text)}
}

func (p *groupParser) sum(depth int) ([]run, *Slip) {
	var runs []run
	for {
		one, bad := p.term(depth)
		if bad != nil {
			return nil, bad
		}
		runs = append(runs, one)
		switch w := p.peek(); w.Text {
		case "+":
			p.next++
		case "", ")":
			return runs, nil
		case "(":
			return nil, Wrong(w.At, "write + between two groups; what is repeated comes first, as in (3+2)x2", "there is no + before %q", w.Text)
		default:
			return nil, Wrong(w.At, "write + between two groups", "there is no + before %q", Shortened(w.Text))
		}
	}
}

func (p *groupParser) term(depth int) (run, *Slip) {
	w := p.peek()
	p.next++
	switch w.Text {
	case "":
		return run{}, Wrong(w.At, "write a size there, or remove the +", "a group is missing at the end")
	case "+", ")":
		return run{}, Wrong(w.At, "write a size there, or remove the +", "a group is missing before %q", w.Text)
	case "(":
		return p.parentheses(w, depth)
	case "rest":
		size := p.peek()
		if _, ok := Whole(strings.SplitN(size.Text, "x", 2)[0]); !ok {
			return run{}, Wrong(w.At, "say how many pulses, as in rest 2", "a rest without a number of pulses")
		}
		p.next++
		r, bad := p.size(size)
		r.item.Blank = true
		return r, bad
	}
	return p.size(w)
}

func (p *groupParser) parentheses(open Word, depth int) (run, *Slip) {
	if depth == maxNested {
		return run{}, Wrong(open.At, "write the groups out", "parentheses more than %d deep", maxNested)
	}
	inner, bad := p.sum(depth + 1)
	if bad != nil {
		return run{}, bad
	}
	if p.peek().Text != ")" {
		return run{}, Wrong(open.At, "close it with )", "a ( without its )")
	}
	p.next++
	r := run{inner: inner, times: 1}
	w := p.peek()
	switch {
	case strings.HasPrefix(w.Text, "*"):
		return r, Wrong(w.At, "repeat by x: (3+2)x2", "%q does not repeat", Shortened(w.Text))
	case strings.HasPrefix(w.Text, "x"):
		p.next++
		r.times, bad = times(w.At, w.Text[1:])
	}
	return r, bad
}

// size reads "3" or "3x4".
func (p *groupParser) size(w Word) (run, *Slip) {
	digits, repeat, repeated := strings.Cut(w.Text, "x")
	n, ok := Whole(digits)
	switch {
	case !ok:
		return run{}, badSize(w)
	case n == 0:
		return run{}, Wrong(w.At, "write at least 1, or remove the group", "a group of 0 pulses")
	case n > MaxPulses:
		return run{}, Wrong(w.At, "use a longer pulse", "a group of more than %d pulses", MaxPulses)
	}
	r := run{item: score.Item{Size: int(n)}, times: 1}
	if !repeated {
		return r, nil
	}
	var bad *Slip
	r.times, bad = times(w.At+len(digits)+1, repeat)
	return r, bad
}

func badSize(w Word) *Slip {
	hint := "write sizes in pulses, joined by +, as in 3+2+2"
	switch {
	case strings.HasPrefix(w.Text, "_"):
		hint = "a blank of two pulses is written rest 2"
	case strings.HasPrefix(w.Text, "-"):
		hint = "a group has at least 1 pulse; a blank is written rest 2"
	case strings.Trim(w.Text, "0123456789_") == "" && w.Text[len(w.Text)-1] != '_':
		if w.Text[0] == '0' {
			hint = "write it without the leading 0"
		} else {
			hint = "did you mean " + Shortened(strings.ReplaceAll(w.Text, "_", "+")) + "?"
		}
	case strings.Trim(w.Text, "0123456789,") == "":
		hint = "join the sizes by +, not by commas"
	case strings.Trim(w.Text, "0123456789-") == "":
		hint = "join the sizes by +: " + Shortened(strings.ReplaceAll(w.Text, "-", "+"))
	case strings.Trim(w.Text, "0123456789*") == "":
		hint = "repeat a group by x: " + Shortened(strings.ReplaceAll(w.Text, "*", "x"))
	case strings.Trim(w.Text, "0123456789/") == "":
		hint = "write sizes in pulses, and what a pulse is once, as pulse: 1/8"
	case strings.Trim(w.Text[1:], "0123456789") == "" && len(w.Text) > 1 && strings.Contains("rR", w.Text[:1]):
		hint = "a blank is written rest " + Shortened(w.Text[1:])
	}
	return Wrong(w.At, hint, "%q is no group size", Shortened(w.Text))
}

// times reads the N of xN.
func times(at int, digits string) (int64, *Slip) {
	n, ok := Whole(digits)
	if !ok || n == 0 {
		return 0, Wrong(at, "write how often, as in (3+2)x4", "%q does not say how often to repeat", Shortened("x"+digits))
	}
	return n, nil
}

// count returns the number of groups, at most most, before any is made.
func count(runs []run) int64 {
	total := int64(0)
	for _, r := range runs {
		one := int64(1)
		if r.inner != nil {
			one = count(r.inner)
		}
		if one > most/r.times {
			return most
		}
		total = min(most, total+one*r.times)
	}
	return total
}

func expand(items []score.Item, runs []run) []score.Item {
	for _, r := range runs {
		for range r.times {
			if r.inner != nil {
				items = expand(items, r.inner)
			} else {
				items = append(items, r.item)
			}
		}
	}
	return items
}
