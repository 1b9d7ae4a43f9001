package find

import (
	"fmt"
	"strconv"
	"strings"

	"tieover/score/beat"
	"tieover/score/process"
)

// GroupsText writes groups as a spec does: "3+2+rest 2". Six or more of one
// size in a row are gathered: "2x8+3".
func GroupsText(items []Item) string {
	var terms []string
	for i := 0; i < len(items); {
		n := 1
		for i+n < len(items) && items[i+n] == items[i] {
			n++
		}
		term := strconv.FormatInt(items[i].Size, 10)
		switch {
		case items[i].Blank:
			term, n = "rest "+term, 1
		case n < 6:
			n = 1
		default:
			term += "x" + strconv.Itoa(n)
		}
		terms = append(terms, term)
		i += n
	}
	return beat.Plus(terms)
}

// String says the description in words on one line, without its pitches.
func (d *Description) String() string {
	if d.Literal {
		return "no pattern: " + beat.Counted(len(d.Groups), "value") + " as they stand"
	}
	if d.Stretches != nil {
		return d.stretchesText()
	}
	var s string
	if d.CutEvery > 0 {
		s = loopText(d.Groups, d.Cycles, 0) + ", starting over every " + pulses(d.CutEvery)
	} else {
		s = loopText(d.Groups, d.Cycles, d.Rest)
	}
	if words := d.ProcessWords(); words != "" {
		s += ", " + words
	}
	s += d.strikeText()
	if d.Tail > 0 {
		s += fmt.Sprintf(", last group cut to %d", d.Tail)
	}
	return s
}

// loopText says groups and how often they are heard; rest is how many pulses there are of
// the last cycle, 0 when it is complete.
func loopText(groups []Item, cycles int, rest int64) string {
	text := GroupsText(groups) + " (" + pulses(total(groups)) + "), "
	if rest > 0 {
		return text + beat.Counted(cycles-1, "time") + " and " + pulses(rest) + " of the next"
	}
	return text + beat.Counted(cycles, "time")
}

// IsCutOf reports whether the description is a single group that starts over with each
// cycle of a loop: 3+3+2 as threes. It is not heard so, and belongs beside the loop.
func (d *Description) IsCutOf(loop *Description) bool {
	return d.CutEvery > 0 && len(d.Groups) == 1 && loop.isPlainLoop() && d.CutEvery == loop.Length()
}

// CutText says a cut of a single group in short: "3s, starting over every 8 pulses".
func (d *Description) CutText() string {
	return fmt.Sprintf("%ds, starting over every %s", d.Length(), pulses(d.CutEvery))
}

// stretchesText says one stretch after the other.
func (d *Description) stretchesText() string {
	var parts []string
	for i, s := range d.Stretches {
		text := s.words(d.next(i) - s.First)
		if i == 0 {
			text += d.strikeText()
		} else {
			text = fmt.Sprintf("then from %s: %s", s.beginning(), text)
		}
		parts = append(parts, text)
	}
	return strings.Join(parts, "; ")
}

// strikeText says how attacks are made, and the silence before the first.
func (d *Description) strikeText() (text string) {
	switch d.Strike {
	case Short:
		text = ", each struck for one pulse"
	case All:
		text = ", every pulse struck, groups accented"
	}
	if d.Lead > 0 {
		text += ", after " + pulses(d.Lead) + " of silence"
	}
	return text
}

// ProcessWords says what the processes do, or how a melody changes; "" if there is
// nothing of the kind.
func (d *Description) ProcessWords() string {
	if d.Melody != nil {
		return d.Melody.String()
	}
	s := rulesText(d.Process, "group")
	if d.Reset > 0 {
		s += fmt.Sprintf(", from the start again after every %s", beat.Counted(d.Reset, "cycle"))
	}
	return s
}

// rulesText says what processes do; noun is what they turn: groups, or pitches.
func rulesText(rules []process.Rule, noun string) string {
	words := make([]string, len(rules))
	for i, p := range rules {
		words[i] = ruleText(p, noun)
	}
	return strings.Join(words, " and ")
}

func ruleText(p process.Rule, noun string) string {
	after := "each time"
	if p.After > 1 {
		after = fmt.Sprintf("after each %d times", p.After)
	}
	switch p.Kind {
	case process.Grow:
		return growthText(p) + " " + after
	case process.Rotate:
		if p.By < 0 {
			return fmt.Sprintf("starting %s earlier %s", beat.Counted(-p.By, noun), after)
		}
		return fmt.Sprintf("starting %s further on %s", beat.Counted(p.By, noun), after)
	case process.Shift:
		if p.By < 0 {
			return fmt.Sprintf("moved %s ahead inside the cycle %s", pulses(-p.By), after)
		}
		return fmt.Sprintf("moved %s later inside the cycle %s", pulses(p.By), after)
	case process.Append:
		return fmt.Sprintf("one more group of %d at the end %s", p.Size, after)
	}
	if p.After == 2 {
		return "each second time backwards"
	}
	return fmt.Sprintf("backwards in cycles %d, %d and so on", p.After, 2*p.After)
}

func growthText(p process.Rule) string {
	switch {
	case p.From > 0:
		return fmt.Sprintf("group %d takes %d from group %d", p.Group, p.By, p.From)
	case p.By < 0:
		return fmt.Sprintf("group %d loses %d", p.Group, -p.By)
	}
	return fmt.Sprintf("group %d grows by %d", p.Group, p.By)
}

// SeriesWords says the series, which must not be nil.
func (d *Description) SeriesWords(l *List) string {
	s := d.Series
	names := make([]string, 0, len(s.Chords))
	for _, c := range s.Chords {
		names = append(names, chordText(l.Chords[c]))
	}
	text := strings.Join(names, " ")
	switch {
	case s.Literal:
		return "no pattern in the pitches"
	case len(names) == 1:
		return "always " + text
	case s.Last:
		return text + ", each cycle the last of them"
	case !s.Own && len(s.Order) == 0:
		return text + ", dealt afresh each cycle"
	case !s.Own:
		return text + ", dealt afresh each cycle, " + rulesText(s.Order, "pitch")
	}
	text += ", " + beat.Counted(len(names), "pitch") + " of their own"
	if each := d.attacksPerCycle(); each > 0 {
		both, _ := beat.LCM(len(names), each) // both are far from the range
		text += fmt.Sprintf(" against %s a cycle: together again after %s (%s of the pitches, %s)",
			beat.Counted(each, "attack"), beat.Counted(both, "attack"), beat.Counted(both/len(names), "round"), beat.Counted(both/each, "cycle"))
	}
	return text
}

// attacksPerCycle returns how many attacks each cycle has, 0 when a process or
// a cut makes them differ.
func (d *Description) attacksPerCycle() int {
	if d.Literal || d.Stretches != nil || d.CutEvery > 0 || d.Has(process.Append) || d.Has(process.Grow) {
		return 0
	}
	n := 0
	for _, item := range d.Groups {
		switch {
		case item.Blank:
		case d.Strike == All:
			n += int(item.Size)
		default:
			n++
		}
	}
	return n
}

func pulses(n int64) string { return beat.Counted(n, "pulse") }
