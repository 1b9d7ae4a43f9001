package report

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"tieover/score"
	"tieover/score/analysis/fit"
	"tieover/score/beat"
)

// Fit writes ways to make the loop of a piece of one section and one layer
// fill the section's bars.
func Fit(w io.Writer, p *score.Piece, o Options) error {
	f := newFitting(p.Sections[0], o.Terms)
	t := text{paper: newPaper(w), words: f.words, o: o}
	bars := count(f.s.BarCount(), "bar")
	t.para(0, 0, fmt.Sprintf("%s (%s) in %s of %s (%s)", shorten(f.joined(f.groups, 0), 40),
		f.count(f.length), bars, f.s.Meter, f.exact(f.s.Length)))
	f.whole(t)
	f.cut(t)
	f.changes(t)
	f.closings(t)
	return t.out.Flush()
}

// fitting is a loop and the bars it is to fill.
type fitting struct {
	words
	groups []int  // in pulses
	blank  []bool // which of them are silent
	length int    // their sum
	unit   beat.Time
	pulse  beat.Pulse
	total  int  // pulses to fill, rounded down
	even   bool // the bars are a whole number of pulses
}

func newFitting(s *score.Section, terms beat.Terms) fitting {
	l := s.Layers[0]
	f := fitting{words: newWords(s, terms), unit: l.Unit, pulse: l.Pulse,
		total: int(s.Length / l.Unit), even: s.Length%l.Unit == 0}
	for _, item := range l.Patterns[0].Groups {
		f.groups = append(f.groups, item.Size)
		f.blank = append(f.blank, item.Blank)
		f.length += item.Size
	}
	return f
}

// count says a number of pulses.
func (f fitting) count(n int) string { return f.counted(int64(n), f.pulse) }

// exact says a length in pulses, as a mixed number if need be.
func (f fitting) exact(t beat.Time) string { return f.words.length(t, f.pulse) }

// whole says how whole cycles fit.
func (f fitting) whole(t text) {
	t.heading("Whole cycles")
	cycles := f.total / f.length
	left := f.s.Length - beat.Time(cycles*f.length)*f.unit
	bars := count(f.s.BarCount(), "bar")
	switch {
	case left == 0:
		t.item(fmt.Sprintf("Fits: %s %s exactly %s.", count(cycles, "cycle"), beat.Inflect(cycles, "makes", "make"), bars))
	case cycles == 0:
		t.item(fmt.Sprintf("Not one whole cycle fits: %s is %s short.", bars, f.exact(beat.Time(f.length)*f.unit-left)))
	default:
		t.item(fmt.Sprintf("%s %s %s, %s too short.", count(cycles, "cycle"), beat.Inflect(cycles, "makes", "make"),
			f.count(cycles*f.length), f.exact(left)))
		t.item(fmt.Sprintf("%s would be %s too long.", count(cycles+1, "cycle"), f.exact(beat.Time(f.length)*f.unit-left)))
	}
	clean := f.clean()
	if len(clean) == 0 {
		t.item("Whole cycles end on a barline nowhere in the first 100,000 bars.")
		return
	}
	var parts []string
	for _, c := range clean {
		parts = append(parts, fmt.Sprintf("%s = %s", count(c.Cycles, "cycle"), count(c.Bars, "bar")))
	}
	t.item(fmt.Sprintf("Whole cycles end on a barline at %s, and so on.", strings.Join(parts, ", ")))
}

// cleanFit is a number of cycles that fill a number of bars.
type cleanFit struct{ Cycles, Bars int }

// clean returns the first three places where whole cycles end on a barline, and
// those around the bars asked for.
func (f fitting) clean() []cleanFit {
	const reach = 100_000
	cycle := beat.Time(f.length) * f.unit
	var all []cleanFit
	at := beat.Time(0)
	for bar := 1; bar <= reach && (len(all) < 3 || at <= f.s.Length); bar++ {
		sig := f.s.Meter[(bar-1)%len(f.s.Meter)]
		at += f.s.Grid.Must(sig.Span())
		if at%cycle == 0 {
			all = append(all, cleanFit{int(at / cycle), bar})
		}
	}
	if len(all) > 4 { // the first, and the last ones, which surround the target
		all = append(all[:1:1], all[len(all)-3:]...)
	}
	return all
}

// cut says where a cut would fall, and what stretching does instead.
func (f fitting) cut(t text) {
	c := f.truncated()
	if c.Left == 0 {
		return
	}
	t.heading("Cut by the end")
	start := beat.Time(c.Cycles*f.length) * f.unit
	place := fmt.Sprintf("after its group %d", c.Group)
	if c.Inside() {
		place = fmt.Sprintf("inside its group %d, after %s of %s", c.Group, f.number(beat.Time(c.Kept), f.pulse), f.exact(beat.Time(c.Of)))
	}
	t.item(fmt.Sprintf("Cycle %d begins at %s and is cut %s.", c.Cycles+1, t.s.Where(start), place))
	if !f.even {
		t.item("The bars are no whole number of pulses, so the cut falls inside a pulse.")
		return
	}
	ending := f.total - max(0, c.Cycles-mostLast-1)*f.length // enough cycles to see the last groups of
	t.item(fmt.Sprintf("The last groups are then %s.", f.last(fit.Played(f.groups, ending))))
	if stretched, ok := fit.Extended(f.groups, ending); ok {
		t.item(fmt.Sprintf("Stretched instead, without the rest of a group: %s.", f.last(stretched)))
	}
}

// truncated cuts the loop in ticks.
func (f fitting) truncated() fit.Cut {
	scaled := make([]int, len(f.groups))
	for i, g := range f.groups {
		scaled[i] = g * int(f.unit)
	}
	return fit.Truncate(scaled, int(f.s.Length))
}

// mostLast is how many groups are written of the end of a long list.
const mostLast = 12

// last writes the end of a long list of groups, which begins with a cycle.
func (f fitting) last(groups []int) string {
	from := max(0, len(groups)-mostLast)
	sentence := f.joined(groups[from:], from)
	if from > 0 {
		return "… " + sentence
	}
	return sentence
}

// joined writes groups of the loop as a spec does; the first is the one that
// stands so many groups after the start of a cycle.
func (f fitting) joined(groups []int, from int) string {
	k := from - 1
	return beat.SumOf(groups, func(n int) (int, bool) { k++; return n, f.blank[k%len(f.blank)] })
}

// changes says the smallest changes with 2s and 3s.
func (f fitting) changes(t text) {
	if !f.even || f.total%f.length == 0 {
		return
	}
	t.heading("Smallest changes with 2s and 3s")
	if slices.Contains(f.blank, true) {
		t.item("Rests are counted as groups here.")
	}
	for _, c := range fit.Changes(f.groups, f.total) {
		t.item(fmt.Sprintf("%s: %s (%s %s %s = %s).", count(c.Cycles, "cycle"), changeInWords(c),
			digits(c.Cycles*f.length), sign(c.Pulses()), digits(max(c.Pulses(), -c.Pulses())), digits(f.total)))
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
