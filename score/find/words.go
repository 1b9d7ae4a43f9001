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
		return "no pattern: " + beat.Counted(len(d.Loop().Groups), "value") + " as they stand"
	}
	parts := make([]string, len(d.Stretches))
	for i, s := range d.Stretches {
		if i == 0 {
			parts[i] = s.words() + s.strikeText()
		} else {
			parts[i] = "then from " + s.beginning() + ": " + s.words()
		}
		if s.Tail > 0 {
			parts[i] += fmt.Sprintf(", last group cut to %d", s.Tail)
		}
	}
	return strings.Join(parts, "; ")
}

// words says a stretch, without where it begins and how it is struck.
func (s *Stretch) words() string {
	if s.Groups == nil {
		return beat.Counted(s.Next-s.First, "value") + " without a loop"
	}
	text := GroupsText(s.Groups) + " (" + pulses(s.Length()) + "), "
	switch {
	case s.CutEvery > 0:
		text += beat.Counted(s.Cycles, "time") + ", starting over every " + pulses(s.CutEvery)
	case s.Rest > 0:
		text += beat.Counted(s.Cycles-1, "time") + " and " + pulses(s.Rest) + " of the next"
	default:
		text += beat.Counted(s.Cycles, "time")
	}
	if words := s.ProcessWords(); words != "" {
		text += ", " + words
	}
	if n := s.differences(); n > 0 {
		text += ", " + beat.Counted(n, "exception")
	}
	if s.last > 0 {
		text += ", last attack " + pulses(s.last)
	}
	return text
}

// IsCutOf reports whether the description is a single group that starts over with each
// cycle of a loop: 3+3+2 as threes. It is not heard so, and belongs beside the loop.
func (d *Description) IsCutOf(loop *Description) bool {
	s := d.Loop()
	return s.CutEvery > 0 && len(s.Groups) == 1 && loop.IsPlainLoop() && s.CutEvery == loop.Loop().Length()
}

// CutText says a cut of a single group in short: "3s, starting over every 8 pulses".
func (d *Description) CutText() string {
	return fmt.Sprintf("%ds, starting over every %s", d.Loop().Length(), pulses(d.Loop().CutEvery))
}

// strikeText says how attacks are made, and the silence before the first.
func (s *Stretch) strikeText() (text string) {
	switch s.Strike {
	case Short:
		text = ", each struck for one pulse"
	case All:
		text = ", every pulse struck, groups accented"
	}
	if s.At > 0 {
		text += ", after " + pulses(s.At) + " of silence"
	}
	return text
}

// ProcessWords says what the processes do, or how a melody changes; "" if there is
// nothing of the kind.
func (s *Stretch) ProcessWords() string {
	if s.Melody != nil {
		return s.Melody.String()
	}
	text := rulesText(s.Process, "group")
	if s.Reset > 0 {
		text += fmt.Sprintf(", from the start again after every %s", beat.Counted(s.Reset, "cycle"))
	}
	return text
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

// attacksPerCycle returns how many attacks each cycle has, 0 when a process, a cut or an
// exception makes them differ.
func (d *Description) attacksPerCycle() int {
	s := d.Loop()
	if d.Literal || !d.IsExact() || s.CutEvery > 0 || s.Has(process.Append) || s.Has(process.Grow) {
		return 0
	}
	n := 0
	for _, item := range s.Groups {
		switch {
		case item.Blank:
		case s.Strike == All:
			n += int(item.Size)
		default:
			n++
		}
	}
	return n
}

func pulses(n int64) string { return beat.Counted(n, "pulse") }
