package engraving

import (
	"tieover/export/engraving/canvas"
	"tieover/export/engraving/content"
	"tieover/export/engraving/pen"
)

const graceStem pen.Unit = 240

// graceSpots are the grace notes of a note where they are drawn, all with stems of
// one height.
func (s *spot) graceSpots() []spot {
	spots := make([]spot, len(s.Graces))
	away, tip := content.Side(s.Voice), pen.Nowhere
	for k, g := range s.Graces {
		at := *s.Spot
		at.Item, at.X = g.Item, s.X+g.X
		spots[k] = spot{Spot: &at, group: -1}
		tip = max(tip, away*g.Edge(away)+graceStem)
	}
	for k := range spots {
		spots[k].tip = away * tip
	}
	return spots
}

// graceNotes puts grace notes on the skylines and draws them.
func (l *line) graceNotes() {
	for i := range l.spots {
		s := &l.spots[i]
		if s.Note == nil || len(s.Graces) == 0 {
			continue
		}
		st, graces := &l.Staves[s.Staff], s.graceSpots()
		for k := range graces {
			g := &graces[k]
			l.addNote(g, st)
			for head := range g.Pos {
				g.drawHead(&st.Fills, st, head)
			}
			if len(graces) > 1 {
				g.group = 0 // its stem ends in a beam
			}
			g.drawStem(&st.Fills)
		}
		leadIn(st, graces)
		if s.Note.Heads[0].Step != 0 {
			slurGrace(st, &graces[0], s)
		}
	}
}

// leadIn draws the slash through the stem of one grace note, or the beams of
// several.
func leadIn(s *canvas.Staff, graces []spot) {
	first, last := &graces[0], &graces[len(graces)-1]
	back := -pen.Direction(first.Up) // from the tip to the head
	if first == last {
		x, y := first.stemX(), first.tip+back*130
		s.Fills.Slanted(x-55, y+40, x+75, y-50, pen.StemLine)
		return
	}
	thick := beamThick.Percent(pen.SmallSize)
	for level := range pen.Unit(len(first.Note.Beams)) {
		y := first.tip + back*level*beamStep.Percent(pen.SmallSize)
		s.Fills.Box(first.stemX()-pen.StemLine/2, min(y, y+back*thick), last.stemX()+pen.StemLine/2, max(y, y+back*thick))
	}
}

// slurGrace draws the slur from the first grace note to its note, on the side of
// the grace note's head.
func slurGrace(s *canvas.Staff, from, to *spot) {
	away := pen.Direction(!from.Up)
	x0, x1 := from.X+from.Width(0)/2, to.X+to.Shift+20
	y0, y1 := from.Edge(away)+away*50, to.Edge(away)+away*50
	h := away * flattestTie
	a := arc{x0: x0, y0: y0, x1: x1, y1: y1, height: flattestTie, away: away}
	a.draw(&s.Fills)
	s.Add(x0, x1, min(y0, y1, y0+h, y1+h), max(y0, y1, y0+h, y1+h))
}
