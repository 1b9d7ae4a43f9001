package engraving

import (
	"tieover/export/engraving/pen"
	"tieover/layout/sheet"
)

// beamGroup is what one beam joins on a line.
type beamGroup struct {
	spots          []int
	up             bool
	left, right    bool     // it comes from or goes to another line
	x0, y0, x1, y1 pen.Unit // the outer edge of its first beam
}

// Beams.
const (
	beamThick pen.Unit = 50
	beamStep  pen.Unit = 75  // from one beam to the next
	hookWidth pen.Unit = 110 // of the stump of a beam
	beamStem  pen.Unit = 310 // least length of a stem under one beam
	stemStep  pen.Unit = 55  // and for each further beam
	steepest           = 22  // percent
)

// beams joins notes to groups and fits a line over the stems of each.
func (l *line) beams() {
	l.joinGroups()
	for i := range l.groups {
		l.fitBeam(&l.groups[i])
	}
}

func (l *line) joinGroups() {
	for _, v := range l.Voices {
		open := -1
		for _, i := range v.Spots {
			s := &l.spots[i]
			switch {
			case s.Note == nil: // a beam may run over a rest
				continue
			case !s.Beamed():
				open = -1
				continue
			}
			first := s.Note.Beams[0]
			goesOn := first == sheet.BeamContinue || first == sheet.BeamEnd
			if open < 0 || !goesOn {
				open = len(l.groups)
				l.groups = append(l.groups, beamGroup{up: s.Up, left: goesOn})
			}
			g := &l.groups[open]
			g.spots = append(g.spots, i)
			s.group = open
			g.right = first == sheet.BeamBegin || first == sheet.BeamContinue
			if !g.right {
				open = -1
			}
		}
	}
}

// stemX is the middle of a stem.
func (s *spot) stemX() pen.Unit {
	x := s.X + s.Shift
	if !s.Up {
		return x + pen.StemLine/2
	}
	foot := s.Foot()
	w := s.Width(foot)
	if h := s.Head[foot]; h == pen.HeadTriangle || h == pen.HeadTriangleOpen {
		return x + w - 7
	}
	return x + w - pen.StemLine/2
}

// outer is how far the heads reach in the direction of the stems.
func (g *beamGroup) outer(s *spot) pen.Unit {
	return pen.Direction(g.up) * s.Edge(pen.Direction(g.up))
}

// fitBeam gives a group its beam: a slope that follows the notes but is never
// steep, and so far out that every stem is long enough.
func (l *line) fitBeam(g *beamGroup) {
	first, last := &l.spots[g.spots[0]], &l.spots[g.spots[len(g.spots)-1]]
	x0, x1 := first.stemX(), last.stemX()
	slope := l.slope(g, x1-x0)
	at := func(x pen.Unit) pen.Unit { return slope * (x - x0) / max(1, x1-x0) }
	need, levels := pen.Nowhere, 1
	for _, i := range g.spots {
		s := &l.spots[i]
		levels = max(levels, s.Flags())
		length := s.Size(beamStem + pen.Unit(max(0, s.Flags()-1))*stemStep)
		length = max(length, s.StrokeStem(beamThick+pen.Unit(s.Flags()-1)*beamStep))
		need = max(need, g.outer(s)+length-at(s.stemX()))
		if l.Staves[s.Staff].Lines == 5 && s.Free() { // to the middle line
			need = max(need, -at(s.stemX()))
		}
	}
	need = max(need, l.clearOfRests(g, levels, at))
	need = (need + 24) / 25 * 25 // quarters of a space keep edges off the lines
	away := pen.Direction(g.up)
	g.x0, g.x1, g.y0, g.y1 = x0, x1, away*need, away*(need+slope)
	for _, i := range g.spots {
		s := &l.spots[i]
		s.tip = away * (need + at(s.stemX()))
	}
}

// slope is how much farther out the beam ends than it begins: about half of the
// notes' interval, a little more than a space at most; none where a note
// between stands out (common practice).
func (l *line) slope(g *beamGroup, width pen.Unit) pen.Unit {
	first, last := &l.spots[g.spots[0]], &l.spots[g.spots[len(g.spots)-1]]
	if len(g.spots) == 1 {
		return 0
	}
	a, b := g.outer(first), g.outer(last)
	for _, i := range g.spots[1 : len(g.spots)-1] {
		if g.outer(&l.spots[i]) > max(a, b) {
			return 0
		}
	}
	slope := b - a
	switch d := max(slope, -slope); {
	case d <= 50:
		slope /= 2
	case d <= 150:
		slope = min(max(slope.Percent(45), -50), 50)
	default:
		slope = min(max(slope.Percent(40), -125), 125)
	}
	limit := width.Percent(steepest)
	return min(max(slope, -limit), limit)
}

// clearOfRests is how far out a beam must be for the rests under it.
func (l *line) clearOfRests(g *beamGroup, levels int, at func(pen.Unit) pen.Unit) pen.Unit {
	need := pen.Nowhere
	for i := g.spots[0]; i < g.spots[len(g.spots)-1]; i++ {
		s := &l.spots[i]
		if s.Rest == nil || s.Column < 0 || s.Voice.Number != l.spots[g.spots[0]].Voice.Number {
			continue
		}
		y := pen.Unit(130) + pen.Unit(levels)*beamStep
		if !s.Free() && !s.Lone {
			y += 150
		}
		need = max(need, y-at(s.X))
	}
	return need
}

// at is the height of the outer edge over x.
func (g *beamGroup) at(x pen.Unit) pen.Unit {
	if g.x1 <= g.x0 {
		return g.y0
	}
	return g.y0 + (g.y1-g.y0)*(x-g.x0)/(g.x1-g.x0)
}

// drawBeams draws the beams of a group, level by level from the outermost.
func (l *line) drawBeams(p *pen.Path, g *beamGroup) {
	levels := 0
	for _, i := range g.spots {
		levels = max(levels, len(l.spots[i].Note.Beams))
	}
	for level := range levels {
		l.drawLevel(p, g, level)
	}
}

func (l *line) drawLevel(p *pen.Path, g *beamGroup, level int) {
	start, end := l.Music(0), l.Right()
	from, open := pen.Unit(0), false
	for k, i := range g.spots {
		s := &l.spots[i]
		if level >= len(s.Note.Beams) {
			continue
		}
		x := s.stemX()
		switch s.Note.Beams[level] {
		case sheet.BeamBegin:
			from, open = x-pen.StemLine/2, true
		case sheet.BeamContinue, sheet.BeamEnd:
			if !open {
				from, open = max(start, x-150), true
			}
			if s.Note.Beams[level] == sheet.BeamEnd {
				l.drawBeam(p, g, from, x+pen.StemLine/2, level)
				open = false
			}
		case sheet.HookForward:
			l.drawBeam(p, g, x-pen.StemLine/2, x+l.hook(g, k, 1), level)
		case sheet.HookBackward:
			l.drawBeam(p, g, x-l.hook(g, k, -1), x+pen.StemLine/2, level)
		}
	}
	if open {
		l.drawBeam(p, g, from, min(end, l.spots[g.spots[len(g.spots)-1]].stemX()+150), level)
	}
}

// hook is how long the stump of a beam is on one side of a note.
func (l *line) hook(g *beamGroup, k, side int) pen.Unit {
	o := k + side
	if o < 0 || o >= len(g.spots) {
		return hookWidth
	}
	d := l.spots[g.spots[o]].stemX() - l.spots[g.spots[k]].stemX()
	return min(hookWidth, max(d, -d).Percent(45))
}

func (l *line) drawBeam(p *pen.Path, g *beamGroup, x0, x1 pen.Unit, level int) {
	first := &l.spots[g.spots[0]]
	thick, step := first.Size(beamThick), first.Size(beamStep)*pen.Unit(level)
	y0, y1 := g.at(x0), g.at(x1)
	if g.up {
		y0, y1 = y0+step, y1+step
	} else {
		y0, y1 = y0-step-thick, y1-step-thick
	}
	p.Slanted(x0, y0, x1, y1, thick)
}
