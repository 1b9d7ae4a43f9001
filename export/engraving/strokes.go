package engraving

import "tieover/layout/sheet"

// A roll has three strokes through its stem, or at its head where there is none.
const (
	strokeCount      = 3
	strokeStep  unit = 62
	strokeThick unit = 36
	strokeReach unit = 55 // to each side of the stem
	strokeRise  unit = 34 // from left to right
	strokeAir   unit = 34 // from head, beam or flag
	strokesHigh      = (strokeCount-1)*strokeStep + strokeThick + strokeRise
	flagHigh    unit = 190
)

func (it *item) rolled() bool { return it.note != nil && it.note.Touch.Has(sheet.Stroked) }

// strokeStem is how long a stem must be for the strokes of a roll, under flags or
// beams as high as given; 0 for other notes.
func (it *item) strokeStem(under unit) unit {
	if !it.rolled() {
		return 0
	}
	return 50 + strokesHigh + 2*strokeAir + it.size(under)
}

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
