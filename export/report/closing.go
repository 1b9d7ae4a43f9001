package report

import (
	"fmt"
	"strings"

	"tieover/score/analysis/fit"
)

// mostClosings is how many formulas are listed for one stretch.
const mostClosings = 8

// closings says formulas of three statements and two gaps that land on the
// downbeat after the bars.
func (f fitting) closings() {
	if !f.Even {
		return
	}
	f.heading("Closings that land on the next downbeat")
	f.item("Three statements with two equal gaps. The landing stroke is the downbeat after the last bar: extra, or counted as the end of the third statement.")
	leads := fit.After(f.Length, f.Total)
	for i, lead := range leads {
		if i == mostClosings/2 {
			break
		}
		f.item(f.lead(lead))
	}
	if len(leads) == 0 {
		f.item("The loop itself, three times with gaps, does not land there after whole cycles.")
	}
	for _, s := range f.Stretches() {
		f.stretch(s)
	}
}

// lead says a closing with the loop itself as the statement.
func (f fitting) lead(l fit.Lead) string {
	sentence := "no gaps"
	if l.Closing.Gap > 0 {
		sentence = "gaps of " + f.inPulses(l.Closing.Gap)
	}
	counted := ""
	if in, ok := l.Closing.Inclusive(); ok {
		gaps := "gaps of " + digits(in.Gap)
		if in.Gap == 0 {
			gaps = "no gaps"
		}
		counted = fmt.Sprintf("; landing stroke counted: %s and %s", digits(in.Statement), gaps)
	}
	before := "At once"
	if l.Cycles > 0 {
		before = fmt.Sprintf("After %s, from %s", count(l.Cycles, "cycle"), f.s.Where(f.start(l.Cycles)))
	}
	statement, gap := digits(l.Closing.Statement), digits(l.Closing.Gap)
	sum := strings.Join([]string{statement, gap, statement, gap, statement}, " + ")
	if l.Closing.Gap == 0 {
		sum = strings.Join([]string{statement, statement, statement}, " + ")
	}
	return fmt.Sprintf("%s: the loop three times with %s (%s%s).", before, sentence, sum, counted)
}

func (f fitting) stretch(s fit.Stretch) {
	over := fmt.Sprintf("the last %d bars", s.Bars)
	if s.Bars == 1 {
		over = "the last bar"
	}
	f.item(fmt.Sprintf("Any statement over %s (%s):", over, f.inPulses(s.Pulses)))
	f.hang("      landing stroke extra:    ", 31, formulas(fit.Closings(s.Pulses, fit.Exclusive)))
	f.hang("      landing stroke counted:  ", 31, formulas(fit.Closings(s.Pulses, fit.Inclusive)))
}

// formulas writes "4 gap 2", longest statement first.
func formulas(all []fit.Closing) string {
	var parts []string
	for i, c := range all {
		if i == mostClosings {
			parts = append(parts, fmt.Sprintf("and %d more", len(all)-i))
			break
		}
		gap := fmt.Sprintf("gap\u00a0%d", c.Gap)
		if c.Gap == 0 {
			gap = "no\u00a0gap"
		}
		parts = append(parts, fmt.Sprintf("%d,\u00a0%s", c.Statement, gap))
	}
	if len(parts) == 0 {
		return "none"
	}
	return strings.Join(parts, "; ")
}
