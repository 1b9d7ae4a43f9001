package engraving

import (
	"tieover/export/engraving/content"
	"tieover/export/engraving/pen"
)

// strokesAt is the middle of a roll's strokes: halfway up what is free of the
// stem, or beyond the head.
func (s *spot) strokesAt(g *beamGroup) (x, y pen.Unit) {
	if !s.HasStem() {
		return s.X + s.Shift + s.Width(s.Foot())/2, s.Top() - 50 - content.StrokeAir - content.StrokesHigh/2
	}
	taken := pen.Unit(0)
	switch n := pen.Unit(s.Flags()); {
	case g != nil:
		taken = s.Size(beamThick + (pen.Unit(len(s.Note.Beams))-1)*beamStep)
	case n > 0:
		taken = s.Size(content.FlagHigh + (n-1)*flagStep)
	}
	away := pen.Direction(s.Up)
	return s.stemX(), (s.Edge(away) + away*50 + s.tip - away*taken) / 2
}

// strokes puts the strokes of rolls on the skylines.
func (l *line) strokes() {
	for i := range l.spots {
		if s := &l.spots[i]; s.Rolled() {
			x, y := s.strokesAt(l.groupOf(s))
			l.Occupy("strokes", s.Staff, x-content.StrokeReach, y-content.StrokesHigh/2, x+content.StrokeReach, y+content.StrokesHigh/2)
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
func (s *spot) drawStrokes(p *pen.Path, g *beamGroup) {
	if !s.Rolled() {
		return
	}
	x, y := s.strokesAt(g)
	y -= (content.StrokeCount-1)*content.StrokeStep/2 + content.StrokeThick/2
	for range content.StrokeCount {
		p.Slanted(x-content.StrokeReach, y+content.StrokeRise/2, x+content.StrokeReach, y-content.StrokeRise/2, content.StrokeThick)
		y += content.StrokeStep
	}
}
