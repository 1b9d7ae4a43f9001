package report

import (
	"fmt"
	"strings"

	"tieover/score/analysis/fit"
	"tieover/score/beat"
)

// mostClosings is how many formulas are listed for one stretch.
const mostClosings = 8

// closings says formulas of three statements and two gaps that land on the
// downbeat after the bars.
func (f fitting) closings(t text) {
	if !f.even {
		return
	}
	t.heading("Closings that land on the next downbeat")
	t.item("Three statements with two equal gaps. The landing stroke is the downbeat after the last bar: extra, or counted as the end of the third statement.")
	leads := fit.After(f.length, f.total)
	for i, lead := range leads {
		if i == mostClosings/2 {
			break
		}
		t.item(f.lead(lead))
	}
	if len(leads) == 0 {
		t.item("The loop itself, three times with gaps, does not land there after whole cycles.")
	}
	for _, bars := range f.stretches() {
		f.stretch(t, bars)
	}
}

// lead says a closing with the loop itself as the statement.
func (f fitting) lead(l fit.Lead) string {
	start := beat.Time(l.Cycles*f.length) * f.unit
	sentence := "no gaps"
	if l.Closing.Gap > 0 {
		sentence = "gaps of " + f.count(l.Closing.Gap)
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
		before = fmt.Sprintf("After %s, from %s", count(l.Cycles, "cycle"), f.s.Where(start))
	}
	statement, gap := digits(l.Closing.Statement), digits(l.Closing.Gap)
	sum := strings.Join([]string{statement, gap, statement, gap, statement}, " + ")
	if l.Closing.Gap == 0 {
		sum = strings.Join([]string{statement, statement, statement}, " + ")
	}
	return fmt.Sprintf("%s: the loop three times with %s (%s%s).", before, sentence, sum, counted)
}

// stretches returns over how many last bars any statement is tried.
func (f fitting) stretches() []int {
	var bars []int
	for _, n := range []int{1, 2, 4} {
		if n <= f.s.BarCount() {
			bars = append(bars, n)
		}
	}
	return bars
}

func (f fitting) stretch(t text, bars int) {
	n, ok := f.lastBars(bars)
	if !ok {
		return
	}
	over := fmt.Sprintf("the last %d bars", bars)
	if bars == 1 {
		over = "the last bar"
	}
	t.item(fmt.Sprintf("Any statement over %s (%s):", over, f.count(n)))
	t.hang("      landing stroke extra:    ", 31, formulas(fit.Closings(n, fit.Exclusive)))
	t.hang("      landing stroke counted:  ", 31, formulas(fit.Closings(n, fit.Inclusive)))
}

// lastBars returns how many pulses the last bars have, if a whole number.
func (f fitting) lastBars(bars int) (pulses int, ok bool) {
	first := f.s.Bar(f.s.BarCount() - bars + 1)
	length := f.s.Length - first.Start
	return int(length / f.unit), length%f.unit == 0
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
