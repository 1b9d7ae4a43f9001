package report

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"tieover/export/chart/terminal"
	"tieover/score"
	"tieover/score/analysis/fit"
	"tieover/score/beat"
)

// Fit writes ways to make the loop of a piece of one section and one layer
// fill the section's bars.
func Fit(w io.Writer, p *score.Piece, o Options) error {
	s := p.Sections[0]
	f := fitting{newPaper(w), newWords(s, o.Terms), fit.LoopOf(s)}
	f.para(0, 0, fmt.Sprintf("%s (%s) in %s of %s (%s)", terminal.Clip(f.groupsFrom(f.Groups, 0), 40),
		f.inPulses(f.Length), count(s.BarCount(), "bar"), s.Meter, f.exact(s.Length)))
	f.whole()
	f.cut()
	f.changes()
	f.closings()
	return f.out.Flush()
}

// fitting writes how a loop fits.
type fitting struct {
	*paper
	words
	fit.Loop
}

// inPulses says a number of pulses.
func (f fitting) inPulses(n int) string { return f.counted(int64(n), f.Pulse) }

// exact says a length in pulses, as a mixed number if need be.
func (f fitting) exact(t beat.Time) string { return f.length(t, f.Pulse) }

// start is where the cycle after so many begins.
func (f fitting) start(cycles int) beat.Time { return beat.Time(cycles*f.Length) * f.Unit }

// whole says how whole cycles fit.
func (f fitting) whole() {
	f.heading("Whole cycles")
	cycles := f.Total / f.Length
	left, short := f.s.Length-f.start(cycles), f.start(cycles+1)-f.s.Length
	bars := count(f.s.BarCount(), "bar")
	switch {
	case left == 0:
		f.item(fmt.Sprintf("Fits: %s %s exactly %s.", count(cycles, "cycle"), beat.Inflect(cycles, "makes", "make"), bars))
	case cycles == 0:
		f.item(fmt.Sprintf("Not one whole cycle fits: %s is %s short.", bars, f.exact(short)))
	default:
		f.item(fmt.Sprintf("%s %s %s, %s too short.", count(cycles, "cycle"), beat.Inflect(cycles, "makes", "make"),
			f.inPulses(cycles*f.Length), f.exact(left)))
		f.item(fmt.Sprintf("%s would be %s too long.", count(cycles+1, "cycle"), f.exact(short)))
	}
	clean := f.Clean()
	if len(clean) == 0 {
		f.item(fmt.Sprintf("Whole cycles end on a barline nowhere in the first %s bars.", digits(fit.CleanReach)))
		return
	}
	parts := each(clean, func(c fit.Clean) string { return count(c.Cycles, "cycle") + " = " + count(c.Bars, "bar") })
	f.item(fmt.Sprintf("Whole cycles end on a barline at %s, and so on.", strings.Join(parts, ", ")))
}

// cut says where a cut would fall, and what stretching does instead.
func (f fitting) cut() {
	c := f.Cut()
	if c.Left == 0 {
		return
	}
	f.heading("Cut by the end")
	place := fmt.Sprintf("after its group %d", c.Group)
	if c.Inside() {
		place = fmt.Sprintf("inside its group %d, after %s of %s", c.Group, f.number(beat.Time(c.Kept), f.Pulse), f.exact(beat.Time(c.Of)))
	}
	f.item(fmt.Sprintf("Cycle %d begins at %s and is cut %s.", c.Cycles+1, f.s.Where(f.start(c.Cycles)), place))
	if !f.Even {
		f.item("The bars are no whole number of pulses, so the cut falls inside a pulse.")
		return
	}
	ending := f.Total - max(0, c.Cycles-mostLast-1)*f.Length // enough cycles to see the last groups of
	f.item(fmt.Sprintf("The last groups are then %s.", f.last(fit.Played(f.Groups, ending))))
	if stretched, ok := fit.Extended(f.Groups, ending); ok {
		f.item(fmt.Sprintf("Stretched instead, without the rest of a group: %s.", f.last(stretched)))
	}
}

// mostLast is how many groups are written of the end of a long list.
const mostLast = 12

// last writes the end of a long list of groups, which begins with a cycle.
func (f fitting) last(groups []int) string {
	from := max(0, len(groups)-mostLast)
	sentence := f.groupsFrom(groups[from:], from)
	if from > 0 {
		return "… " + sentence
	}
	return sentence
}

// groupsFrom writes groups of the loop as a spec does; the first is the one that
// comes so many groups after the start of a cycle.
func (f fitting) groupsFrom(groups []int, from int) string {
	k := from - 1
	return beat.SumOf(groups, func(n int) (int, bool) { k++; return n, f.Blank[k%len(f.Blank)] })
}

// changes says the smallest changes with 2s and 3s.
func (f fitting) changes() {
	if !f.Even || f.Total%f.Length == 0 {
		return
	}
	f.heading("Smallest changes with 2s and 3s")
	if slices.Contains(f.Blank, true) {
		f.item("Rests are counted as groups here.")
	}
	for _, c := range fit.Changes(f.Groups, f.Total) {
		f.item(fmt.Sprintf("%s: %s (%s %s %s = %s).", count(c.Cycles, "cycle"), changeInWords(c),
			digits(c.Cycles*f.Length), sign(c.Pulses()), digits(max(c.Pulses(), -c.Pulses())), digits(f.Total)))
	}
}

func sign(n int) string {
	if n < 0 {
		return "-"
	}
	return "+"
}

// changeInWords says a change: "one 2 becomes a 3", "leave out two 3s", "add a 2 and two 3s".
func changeInWords(c fit.Change) string {
	var parts []string
	twos, threes := c.Twos, c.Threes
	if grown := min(-twos, threes); grown > 0 {
		parts = append(parts, groupsBecome(grown, 2, 3))
		twos, threes = twos+grown, threes-grown
	}
	if shrunk := min(twos, -threes); shrunk > 0 {
		parts = append(parts, groupsBecome(shrunk, 3, 2))
		twos, threes = twos-shrunk, threes+shrunk
	}
	var added, left []string
	for _, n := range []struct{ count, size int }{{twos, 2}, {threes, 3}} {
		switch {
		case n.count > 0:
			added = append(added, someGroups(n.count, n.size))
		case n.count < 0:
			left = append(left, someGroups(-n.count, n.size))
		}
	}
	if len(added) > 0 {
		parts = append(parts, "add "+beat.Listed(added, "and"))
	}
	if len(left) > 0 {
		parts = append(parts, "leave out "+beat.Listed(left, "and"))
	}
	return beat.Listed(parts, "and")
}

func groupsBecome(n, from, to int) string {
	if n == 1 {
		return fmt.Sprintf("one %d becomes a %d", from, to)
	}
	return fmt.Sprintf("%s %ds become %ds", spelledOut(n), from, to)
}

func someGroups(n, size int) string {
	if n == 1 {
		return fmt.Sprintf("a %d", size)
	}
	return fmt.Sprintf("%s %ds", spelledOut(n), size)
}
