package spec

import (
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

// parseGroups reads "3+2+2", "3x4", "(3+2)x3+rest 2".
func parseGroups(text string) ([]score.Item, *slip) {
	p := groupParser{text: text, words: split(text, "+()")}
	if len(p.words) == 0 {
		return nil, wrong(0, "write the sizes joined by +, as in 3+2+2", "there are no groups")
	}
	runs, bad := p.sum(0)
	if bad != nil {
		return nil, bad
	}
	if p.next < len(p.words) {
		return nil, wrong(p.words[p.next].at, "remove it, or open one before", "a ) without its (")
	}
	if count(runs) > MaxGroups {
		return nil, wrong(0, "describe the loop with fewer groups", "a cycle has more than %d groups", MaxGroups)
	}
	items := expand(nil, runs)
	for _, i := range items {
		if !i.Blank {
			return items, nil
		}
	}
	return nil, wrong(0, "let at least one group sound", "every group is a rest")
}

type groupParser struct {
	text  string
	words []word
	next  int
}

// peek returns the next word, "" at the end.
func (p *groupParser) peek() word {
	if p.next < len(p.words) {
		return p.words[p.next]
	}
	return word{at: len(p.text)}
}

func (p *groupParser) sum(depth int) ([]run, *slip) {
	var runs []run
	for {
		one, bad := p.term(depth)
		if bad != nil {
			return nil, bad
		}
		runs = append(runs, one)
		switch w := p.peek(); w.text {
		case "+":
			p.next++
		case "", ")":
			return runs, nil
		case "(":
			return nil, wrong(w.at, "write + between two groups; what is repeated comes first, as in (3+2)x2", "there is no + before %q", w.text)
		default:
			return nil, wrong(w.at, "write + between two groups", "there is no + before %q", shortened(w.text))
		}
	}
}

func (p *groupParser) term(depth int) (run, *slip) {
	w := p.peek()
	p.next++
	switch w.text {
	case "":
		return run{}, wrong(w.at, "write a size there, or remove the +", "a group is missing at the end")
	case "+", ")":
		return run{}, wrong(w.at, "write a size there, or remove the +", "a group is missing before %q", w.text)
	case "(":
		return p.parentheses(w, depth)
	case "rest":
		size := p.peek()
		if _, ok := whole(strings.SplitN(size.text, "x", 2)[0]); !ok {
			return run{}, wrong(w.at, "say how many pulses, as in rest 2", "a rest without a number of pulses")
		}
		p.next++
		r, bad := p.size(size)
		r.item.Blank = true
		return r, bad
	}
	return p.size(w)
}

func (p *groupParser) parentheses(open word, depth int) (run, *slip) {
	if depth == maxNested {
		return run{}, wrong(open.at, "write the groups out", "parentheses more than %d deep", maxNested)
	}
	inner, bad := p.sum(depth + 1)
	if bad != nil {
		return run{}, bad
	}
	if p.peek().text != ")" {
		return run{}, wrong(open.at, "close it with )", "a ( without its )")
	}
	p.next++
	r := run{inner: inner, times: 1}
	w := p.peek()
	switch {
	case strings.HasPrefix(w.text, "*"):
		return r, wrong(w.at, "repeat by x: (3+2)x2", "%q does not repeat", shortened(w.text))
	case strings.HasPrefix(w.text, "x"):
		p.next++
		r.times, bad = times(w.at, w.text[1:])
	}
	return r, bad
}

// size reads "3" or "3x4".
func (p *groupParser) size(w word) (run, *slip) {
	digits, repeat, repeated := strings.Cut(w.text, "x")
	n, ok := whole(digits)
	switch {
	case !ok:
		return run{}, badSize(w)
	case n == 0:
		return run{}, wrong(w.at, "write at least 1, or remove the group", "a group of 0 pulses")
	case n > MaxPulses:
		return run{}, wrong(w.at, "use a longer pulse", "a group of more than %d pulses", MaxPulses)
	}
	r := run{item: score.Item{Size: int(n)}, times: 1}
	if !repeated {
		return r, nil
	}
	var bad *slip
	r.times, bad = times(w.at+len(digits)+1, repeat)
	return r, bad
}

func badSize(w word) *slip {
	hint := "write sizes in pulses, joined by +, as in 3+2+2"
	switch {
	case strings.HasPrefix(w.text, "_"):
		hint = "a blank of two pulses is written rest 2"
	case strings.HasPrefix(w.text, "-"):
		hint = "a group has at least 1 pulse; a blank is written rest 2"
	case strings.Trim(w.text, "0123456789_") == "" && w.text[len(w.text)-1] != '_':
		if w.text[0] == '0' {
			hint = "write it without the leading 0"
		} else {
			hint = "did you mean " + shortened(strings.ReplaceAll(w.text, "_", "+")) + "?"
		}
	case strings.Trim(w.text, "0123456789,") == "":
		hint = "join the sizes by +, not by commas"
	case strings.Trim(w.text, "0123456789-") == "":
		hint = "join the sizes by +: " + shortened(strings.ReplaceAll(w.text, "-", "+"))
	case strings.Trim(w.text, "0123456789*") == "":
		hint = "repeat a group by x: " + shortened(strings.ReplaceAll(w.text, "*", "x"))
	case strings.Trim(w.text, "0123456789/") == "":
		hint = "write sizes in pulses, and what a pulse is once, as pulse: 1/8"
	case strings.Trim(w.text[1:], "0123456789") == "" && len(w.text) > 1 && strings.Contains("rR", w.text[:1]):
		hint = "a blank is written rest " + shortened(w.text[1:])
	}
	return wrong(w.at, hint, "%q is no group size", shortened(w.text))
}

// times reads the N of xN.
func times(at int, digits string) (int64, *slip) {
	n, ok := whole(digits)
	if !ok || n == 0 {
		return 0, wrong(at, "write how often, as in (3+2)x4", "%q does not say how often to repeat", shortened("x"+digits))
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
