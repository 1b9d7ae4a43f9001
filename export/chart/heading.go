package chart

import (
	"fmt"
	"strconv"
	"strings"

	"tieover/export/chart/terminal"
	"tieover/layout/rows"
	"tieover/score/beat"
)

// heading is the title, with the meter and tempo over the last bar of the
// first row at which they fit, or on a line of their own.
func (s *setter) heading(h Head, y *system) string {
	left := strings.ToUpper(h.Title)
	if h.Section != "" {
		left += ", " + h.Section
	}
	right := h.Meter + "   " + h.Tempo
	cols := s.bounds(y)
	for i := len(y.bars) - 1; i >= 0; i-- {
		if c := cols[i]; c >= terminal.Width(left)+3 && c+terminal.Width(right) <= s.opt.Width {
			return left + blank(c-terminal.Width(left)) + right
		}
	}
	if terminal.Width(left)+3+terminal.Width(right) <= s.opt.Width {
		return left + "   " + right
	}
	return strings.Join(append(terminal.Wrap([]string{left}, "", s.opt.Width), terminal.Wrap([]string{h.Meter, h.Tempo}, "   ", s.opt.Width)...), "\n")
}

// landingLabel is what the ruler says of a realignment at the section's end, in
// so many columns; that it is the beginning is said only where that fits.
func (s *setter) landingLabel(label string, room int) string {
	label = s.spell(label)
	if whole := label + " = beginning"; label != "" && s.chart.Repeats() && terminal.Width(whole) <= room {
		return whole
	}
	return label
}

func (s *setter) landingNumber() string { return strconv.Itoa(s.landing.Number) }

// foot gathers what stands below the rows.
func (s *setter) foot() Foot {
	f := Foot{Layers: s.voices(), Width: s.opt.Width}
	var items []string
	for i := range s.chart.Layers {
		items = append(items, s.layerLine(i))
	}
	for _, m := range s.moments() {
		f.Realignments = append(f.Realignments, m)
		items = append(items, strings.TrimSpace(m.Label+" "+m.Words))
	}
	if s.chart.Repeats() {
		again := fmt.Sprintf("repeat from bar %d", s.chart.Section.FirstBar)
		if n := s.chart.Section.Played(); n > 2 {
			again += fmt.Sprintf(", %d times in all", n)
		}
		items = append(items, again)
	}
	f.Closing = terminal.Wrap(items, "   ", s.opt.Width)
	for _, line := range s.closing {
		f.Closing = append(f.Closing, terminal.Wrap([]string{s.spell(line)}, "", s.opt.Width)...)
	}
	return f
}

// layerLine says how often a layer goes round: "a 3+2+2+3: 6 times".
func (s *setter) layerLine(i int) string {
	l := s.chart.Section.Layers[s.chart.Layers[i]]
	sum := s.sum.Layers[i]
	if l.Line != nil {
		return s.letters[i] + " " + rows.Grouping(l, 12)
	}
	text := s.letters[i] + " " + rows.Grouping(l, 12)
	if sum.Changes {
		text += " (changes)"
	}
	if l.Pulse.Span() != s.chart.Section.Pulse.Span() {
		text += " of " + l.Pulse.String()
	}
	var parts []string
	if sum.Whole > 0 || sum.Cut+sum.Ends == 0 {
		parts = append(parts, times(sum.Whole))
	}
	if sum.Cut > 0 {
		parts = append(parts, "cut short "+times(sum.Cut))
	}
	if sum.Ends > 0 {
		parts = append(parts, fmt.Sprintf("%d of %d at the end", sum.Ends, sum.Of))
	}
	return text + ": " + strings.Join(parts, ", ")
}

func times(n int64) string {
	if n == 1 {
		return "once"
	}
	return fmt.Sprintf("%d times", n)
}

// moments lists the first realignments and the last.
func (s *setter) moments() []Moment {
	var list []Moment
	for _, r := range s.sum.Realignments {
		list = append(list, Moment{s.spell(r.Name()), s.when(r.Time)})
	}
	if n := int(s.sum.Count); n > len(list) {
		if n > len(list)+1 {
			list = append(list, Moment{"..", ""})
		}
		list = append(list, Moment{s.spell(s.sum.Last.Name()), s.when(s.sum.Last.Time)})
	}
	return list
}

// when says "after 60 eighths = 6 bars, 13.6 s", or the bar and beat of a
// moment inside a bar.
func (s *setter) when(t beat.Time) string {
	section := s.chart.Section
	where := section.Where(t).ASCII()
	if section.OnBarline(t) {
		n := section.BarAt(t).N - 1
		where = fmt.Sprintf("%d bars", n)
		if n == 1 {
			where = "1 bar"
		}
	}
	after := "after " + s.span(t).String() + " of a whole note"
	if n, whole := s.span(t).Over(section.Pulse.Span()).IsWhole(); whole {
		after = "after " + beat.CountOf(n, section.Pulse, beat.American)
	}
	at := ""
	if section.Opening() < 0 { // the clock begins with the pickup
		at = "at "
	}
	return fmt.Sprintf("%s = %s, %s%s", after, where, at, beat.InMinutes(section.Seconds(t)))
}
