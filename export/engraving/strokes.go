package engraving

// strokesAt is the middle of a roll's strokes: halfway up what is free of the
// stem, or beyond the head.
func (s *spot) strokesAt(g *beamGroup) (x, y unit) {
	if !s.hasStem() {
		return s.x + s.shift + s.width(s.foot())/2, s.top() - 50 - strokeAir - strokesHigh/2
	}
	taken := unit(0)
	switch n := unit(s.flags()); {
	case g != nil:
		taken = s.size(beamThick + (unit(len(s.note.Beams))-1)*beamStep)
	case n > 0:
		taken = s.size(flagHigh + (n-1)*flagStep)
	}
	away := direction(s.up)
	return s.stemX(), (s.edge(away) + away*50 + s.tip - away*taken) / 2
}

// strokes puts the strokes of rolls on the skylines.
func (l *line) strokes() {
	for i := range l.spots {
		if s := &l.spots[i]; s.rolled() {
			x, y := s.strokesAt(l.groupOf(s))
			l.occupy("strokes", s.staff, x-strokeReach, y-strokesHigh/2, x+strokeReach, y+strokesHigh/2)
		}
	}
}

// groupOf is the beam of a note, nil for none.
func (l *line) groupOf(s *spot) *beamGroup {
	if s.group < 0 {
		return nil
	}
	return &l.groups[s.group]
}

// drawStrokes draws the strokes of a roll.
func (s *spot) drawStrokes(p *path, g *beamGroup) {
	if !s.rolled() {
		return
	}
	x, y := s.strokesAt(g)
	y -= (strokeCount-1)*strokeStep/2 + strokeThick/2
	for range strokeCount {
		p.slanted(x-strokeReach, y+strokeRise/2, x+strokeReach, y-strokeRise/2, strokeThick)
		y += strokeStep
	}
}
