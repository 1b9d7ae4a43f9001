package engraving

import (
	"slices"

	"tieover/score/instrument"
)

// Distances of staves, from outer line to outer line.
const (
	staffGap   unit = 450
	oneLineGap unit = 520 // where one of the two has a single line
	braceGap   unit = 600 // between the staves of a keyboard
	leastAir   unit = 90  // between what stands on one staff and on the next
	systemEdge unit = 60  // above and below everything
)

// distances sets the staves below one another, each clear of the one before.
func (l *line) distances() {
	for i := range l.staves {
		s := &l.staves[i]
		if i == 0 {
			s.y = systemEdge - slices.Min(s.up)
			continue
		}
		p := &l.staves[i-1]
		gap := staffGap
		switch {
		case p.part == s.part && !s.tab:
			gap = braceGap
		case p.lines == 1 || s.lines == 1:
			gap = oneLineGap
		}
		d := p.edge() + s.edge() + gap
		for k := range s.up {
			d = max(d, p.down[k]-s.up[k]+leastAir)
		}
		s.y = p.y + d
	}
}

// height is that of the whole system.
func (l *line) height() unit {
	last := &l.staves[len(l.staves)-1]
	return last.y + slices.Max(last.down) + systemEdge
}

// joined reports whether the barlines of a staff go on to the next: within a
// part, and within a family of instruments.
func (l *line) joined(i int) bool {
	if i+1 >= len(l.staves) {
		return false
	}
	a, b := l.staves[i].part, l.staves[i+1].part
	if a == b {
		return true
	}
	parts := l.e.sheet.Parts
	f := parts[a].Instrument.Family
	return f == parts[b].Instrument.Family && f != instrument.Bare
}

// stretch is a run of staves under joined barlines.
type stretch struct {
	first, last int
	y0, y1      unit
}

func (l *line) stretches() (all []stretch) {
	for i := 0; i < len(l.staves); {
		j := i
		for l.joined(j) {
			j++
		}
		a, b := &l.staves[i], &l.staves[j]
		all = append(all, stretch{i, j, a.y - a.reach(), b.y + b.reach()})
		i = j + 1
	}
	return all
}
