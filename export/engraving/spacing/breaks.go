package spacing

import (
	"tieover/export/engraving/content"
	"tieover/export/engraving/pen"
	"tieover/layout/sheet"
)

// Divided cuts a run of bars into lines of about equal width, as few as fit. What
// the sheet puts on one line stays there if it can.
func (s *Setter) Divided(run []content.Row) [][]content.Row {
	if len(run) == 1 || s.fit(run, sheet.Tightest) {
		return [][]content.Row{run}
	}
	widths, total := s.widths(run)
	room := s.Width - s.Line(run[:1], nil, s.Width).Left
	first := s.First
	for n := max(2, int(total.Percent(sheet.Full)/room)); n < len(run); n++ {
		lines := divide(run, widths, total, n)
		fit := true
		for i := range lines {
			s.First = first && i == 0
			if fit = s.fit(lines[i], sheet.Squeezed); !fit {
				break
			}
		}
		s.First = first
		if fit {
			return lines
		}
	}
	return divide(run, widths, total, len(run))
}

// fit reports whether bars fit on a line at a percentage of their ideal gaps.
func (s *Setter) fit(rows []content.Row, percent int) bool {
	return s.Line(rows, nil, s.Width).Spread(10*percent) <= s.Width
}

// widths are the ideal widths of bars in the middle of a line.
func (s *Setter) widths(run []content.Row) (widths []pen.Unit, total pen.Unit) {
	l := s.Line(run, nil, s.Width)
	l.Spread(1000)
	for b := range run {
		widths = append(widths, l.Edges[b+1]-l.Edges[b])
		total += widths[b]
	}
	return widths, total
}

// divide cuts bars into n lines of about equal width.
func divide(run []content.Row, widths []pen.Unit, total pen.Unit, n int) (lines [][]content.Row) {
	from, sum := 0, pen.Unit(0)
	for i, w := range widths {
		left := len(widths) - i // bars from here on
		wide := sum+w/2 > total*pen.Unit(len(lines)+1)/pen.Unit(n)
		if i > from && len(lines) < n-1 && (wide || left <= n-len(lines)-1) {
			lines = append(lines, run[from:i])
			from = i
		}
		sum += w
	}
	return append(lines, run[from:])
}
