package engraving

import "tieover/layout/sheet"

const graceStem unit = 240

// graceSpots are the grace notes of a note where they are drawn, all with stems of
// one height.
func (s *spot) graceSpots() []spot {
	spots := make([]spot, len(s.graces))
	away, tip := direction(s.voice.Stem != sheet.StemDown), nowhere
	for k, g := range s.graces {
		spots[k] = spot{placed: &placed{item: g.item, part: s.part, bar: s.bar, staff: s.staff, column: s.column, x: s.x + g.x}, group: -1}
		tip = max(tip, away*g.edge(away)+graceStem)
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
		if s.note == nil || len(s.graces) == 0 {
			continue
		}
		st, graces := &l.staves[s.staff], s.graceSpots()
		for k := range graces {
			g := &graces[k]
			l.addNote(g, st)
			for head := range g.pos {
				g.drawHead(&st.fills, st, head)
			}
			if len(graces) > 1 {
				g.group = 0 // its stem ends in a beam
			}
			g.drawStem(&st.fills)
		}
		leadIn(st, graces)
		if s.note.Heads[0].Step != 0 {
			slurGrace(st, &graces[0], s)
		}
	}
}

// leadIn draws the slash through the stem of one grace note, or the beams of
// several.
func leadIn(s *lineStaff, graces []spot) {
	first, last := &graces[0], &graces[len(graces)-1]
	back := -direction(first.up) // from the tip to the head
	if first == last {
		x, y := first.stemX(), first.tip+back*130
		s.fills.slanted(x-55, y+40, x+75, y-50, stemLine)
		return
	}
	thick := beamThick.percent(smallSize)
	for level := range unit(len(first.note.Beams)) {
		y := first.tip + back*level*beamStep.percent(smallSize)
		s.fills.box(first.stemX()-stemLine/2, min(y, y+back*thick), last.stemX()+stemLine/2, max(y, y+back*thick))
	}
}

// slurGrace draws the slur from the first grace note to its note, on the side of
// the grace note's head.
func slurGrace(s *lineStaff, from, to *spot) {
	away := direction(!from.up)
	x0, x1 := from.x+from.width(0)/2, to.x+to.shift+20
	y0, y1 := from.edge(away)+away*50, to.edge(away)+away*50
	h := away * flattestTie
	a := arc{x0: x0, y0: y0, x1: x1, y1: y1, height: flattestTie, away: away}
	a.draw(&s.fills)
	s.add(x0, x1, min(y0, y1, y0+h, y1+h), max(y0, y1, y0+h, y1+h))
}
