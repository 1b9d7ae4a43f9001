package verify

import (
	"fmt"
	"strconv"
	"strings"

	"tieover/score/beat"
	"tieover/score/heard"
)

// barEdit says what was done to bars, and in which parts.
func (w *whole) barEdit(a *alignment, g gap, in string) Difference {
	wanted, got := a.wanted, a.heard
	d := Difference{Count: g.n}
	if g.missing {
		first := wanted[g.at]
		d.Kind, d.Want = BarMissing, barNames(wanted[g.at:g.at+g.n])
		d.At, d.Where = w.grid.Span(startOf(got, g.other)), heard.Where{Bar: first.number, Pass: first.pass, Beat: 1}
		switch {
		case first.pass == 2 && (g.n == w.sectionBars(g.at) || a.isRepeats(g)):
			d.Kind, d.text = RepeatMissing, "the repeat of "+d.Want+" is missing"
		case g.anyOf:
			d.text = fmt.Sprintf("%s like %s %s missing%s", beat.Inflect(g.n, "a bar", "bars"), d.Want, beat.Inflect(g.n, "is", "are"), in)
		default:
			d.text = fmt.Sprintf("%s %s missing%s", d.Want, beat.Inflect(g.n, "is", "are"), in) + shiftNote(g.n, "later", g.other < len(got))
		}
		return d
	}
	bars := got[g.at : g.at+g.n]
	d.Got, d.At = barNames(bars), w.grid.Span(bars[0].start)
	d.Where = heard.Where{Bar: bars[0].number, Pass: bars[0].pass, Beat: 1}
	follows := shiftNote(g.n, "earlier", g.at+g.n < len(got))
	switch {
	case allRepeated(bars):
		times := "repeated; the spec plays %s once"
		if n := bars[len(bars)-1].pass; n > 2 {
			times = fmt.Sprintf("played %d times; the spec plays %%s once", n)
		}
		d.Kind, d.text = Repeated, fmt.Sprintf("%s %s "+times, d.Got, beat.Inflect(distinctNumbers(bars), "is", "are"), beat.Inflect(distinctNumbers(bars), "it", "them"))
	case a.isTwice(g):
		d.Kind, d.Want = BarTwice, barNames(got[g.at-g.n:g.at])
		d.text = fmt.Sprintf("%s %s twice%s, again as %s", d.Want, beat.Inflect(g.n, "stands", "stand"), in, d.Got) + follows
	default:
		d.Kind = BarExtra
		d.text = fmt.Sprintf("%s%s %s not in the spec", d.Got, strings.Replace(in, " in all parts", "", 1), beat.Inflect(g.n, "is", "are")) + follows
	}
	return d
}

// sectionBars returns how many bars the pass of a section has that begins with
// bar at of the wanted ones, 0 when none begins there.
func (w *whole) sectionBars(at int) int {
	for _, p := range w.piece.Passes() {
		bars := len(barsOf(w.piece, p, w.grid))
		if at == 0 {
			return bars
		}
		at -= bars
	}
	return 0
}

func allRepeated(bars []bar) bool {
	for _, b := range bars {
		if b.pass < 2 {
			return false
		}
	}
	return true
}

func distinctNumbers(bars []bar) int {
	n := 1
	for n < len(bars) && bars[n].number != bars[0].number {
		n++
	}
	return n
}

// shiftNote says how what follows is compared.
func shiftNote(n int, way string, follows bool) string {
	if !follows {
		return ""
	}
	return "; what follows is compared " + beat.Inflect(n, "a bar", strconv.Itoa(n)+" bars") + " " + way
}

// barNames says which bars these are: "bar 5", "bars 5 and 6", "bars 5 to 8".
func barNames(bars []bar) string {
	n := distinctNumbers(bars)
	first, last := bars[0].number, bars[n-1].number
	time := ""
	if bars[0].pass > 1 && !allRepeated(bars) {
		time = fmt.Sprintf(" (time %d)", bars[0].pass)
	}
	switch n {
	case 1:
		return "bar " + first + time
	case 2:
		return "bars " + first + " and " + last + time
	}
	return "bars " + first + " to " + last + time
}
