package engraving

import (
	"slices"

	"tieover/export/engraving/pen"
	"tieover/score/instrument"
)

// Distances of staves, from outer line to outer line.
const (
	staffGap   pen.Unit = 450
	oneLineGap pen.Unit = 520 // where one of the two has a single line
	braceGap   pen.Unit = 600 // between the staves of a keyboard
	leastAir   pen.Unit = 90  // between what stands on one staff and on the next
	systemEdge pen.Unit = 60  // above and below everything
)

// distances sets the staves below one another, each clear of the one before.
func (l *line) distances() {
	for i := range l.Staves {
		s := &l.Staves[i]
		if i == 0 {
			s.Y = systemEdge - slices.Min(s.Up)
			continue
		}
		p := &l.Staves[i-1]
		gap := staffGap
		switch {
		case p.Part == s.Part && !s.Tab:
			gap = braceGap
		case p.Lines == 1 || s.Lines == 1:
			gap = oneLineGap
		}
		d := p.Edge() + s.Edge() + gap
		for k := range s.Up {
			d = max(d, p.Down[k]-s.Up[k]+leastAir)
		}
		s.Y = p.Y + d
	}
}

// height is that of the whole system.
func (l *line) height() pen.Unit {
	last := &l.Staves[len(l.Staves)-1]
	return last.Y + slices.Max(last.Down) + systemEdge
}

// joined reports whether the barlines of a staff go on to the next: within a
// part, and within a family of instruments.
func (l *line) joined(i int) bool {
	if i+1 >= len(l.Staves) {
		return false
	}
	a, b := l.Staves[i].Part, l.Staves[i+1].Part
	if a == b {
		return true
	}
	parts := l.e.Sheet.Parts
	f := parts[a].Instrument.Family
	return f == parts[b].Instrument.Family && f != instrument.Bare
}

// stretch is a run of staves under joined barlines.
type stretch struct {
	first, last int
	y0, y1      pen.Unit
}

func (l *line) stretches() (all []stretch) {
	for i := 0; i < len(l.Staves); {
		j := i
		for l.joined(j) {
			j++
		}
		a, b := &l.Staves[i], &l.Staves[j]
		all = append(all, stretch{i, j, a.Y - a.Reach(), b.Y + b.Reach()})
		i = j + 1
	}
	return all
}
