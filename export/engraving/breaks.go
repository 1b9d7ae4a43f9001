package engraving

import "tieover/layout/sheet"

// divided cuts a run of bars into lines of about equal width, as few as fit. What
// the sheet puts on one line stays there if it can.
func (s *setter) divided(run []row) [][]row {
	if len(run) == 1 || s.fit(run, sheet.Tightest) {
		return [][]row{run}
	}
	widths, total := s.widths(run)
	room := s.width - s.line(run[:1], nil, s.width).left
	first := s.first
	for n := max(2, int(total.percent(sheet.Full)/room)); n < len(run); n++ {
		lines := divide(run, widths, total, n)
		fit := true
		for i := range lines {
			s.first = first && i == 0
			if fit = s.fit(lines[i], sheet.Squeezed); !fit {
				break
			}
		}
		s.first = first
		if fit {
			return lines
		}
	}
	return divide(run, widths, total, len(run))
}

// fit reports whether bars fit on a line at a percentage of their ideal gaps.
func (s *setter) fit(rows []row, percent int) bool {
	return s.line(rows, nil, s.width).spread(10*percent) <= s.width
}

// widths are the ideal widths of bars in the middle of a line.
func (s *setter) widths(run []row) (widths []unit, total unit) {
	l := s.line(run, nil, s.width)
	l.spread(1000)
	for b := range run {
		widths = append(widths, l.edges[b+1]-l.edges[b])
		total += widths[b]
	}
	return widths, total
}

// divide cuts bars into n lines of about equal width.
func divide(run []row, widths []unit, total unit, n int) (lines [][]row) {
	from, sum := 0, unit(0)
	for i, w := range widths {
		left := len(widths) - i // bars from here on
		wide := sum+w/2 > total*unit(len(lines)+1)/unit(n)
		if i > from && len(lines) < n-1 && (wide || left <= n-len(lines)-1) {
			lines = append(lines, run[from:i])
			from = i
		}
		sum += w
	}
	return append(lines, run[from:])
}
