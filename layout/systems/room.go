package systems

import (
	"slices"

	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/beat"
)

// Room is how much fits on a line at its ideal width, in 1/100 of a staff space.
type Room int

// What is before the music of a line: the clef, a key, and in a score names and brackets.
const (
	partLead  = 800
	scoreLead = 1500
)

// ScoreRoom is what a line of a score has for its bars. How wide the line is is given in
// 1/100 of a staff space; 0 is sheet.LineWidth.
func ScoreRoom(line int) Room { return room(line, scoreLead) }

// PartRoom is what a line of a part printed alone has for its bars.
func PartRoom(line int) Room { return room(line, partLead) }

func room(line, lead int) Room {
	if line == 0 {
		line = sheet.LineWidth
	}
	return Room(max(line-lead, 1000) * 100 / sheet.Full)
}

// mostBars is how many bars fill a line at most.
const mostBars = 8

// squeezed is how much can be squeezed into a line.
func (r Room) squeezed() int { return int(r) * sheet.Full / sheet.Squeezed }

// averaged is how many bars of a section, at most, give the width of its bars.
const averaged = 24

// Bars estimates how many bars of a section fit on a system of the score, by the
// distances of the moments at which anybody attacks or a rest begins: eight at most, and
// two if they can be squeezed into it.
func (r Room) Bars(s *score.Section) int {
	bars := min(s.BarCount(), averaged)
	end := s.Bar(bars).End()
	signs, graces := signsUntil(s, end)
	width := bars*sheet.BarEdges + graces
	for i := 1; i < len(signs); i++ {
		if signs[i-1] >= 0 { // a pickup is none of the bars
			width += sheet.Gap(signs[i]-signs[i-1], s.Grid)
		}
	}
	var sig score.Signature
	for k := 1; k <= bars; k++ {
		if next := s.Bar(k).Signature; !sig.Equal(next) {
			width += sheet.SignatureEdge + sheet.SignatureWidth(next)
			sig = next
		}
	}
	if 2*width <= bars*r.squeezed() {
		return min(mostBars, max(2, int(r)*bars/width))
	}
	return 1
}

// signsUntil lists the moments before an end, and it, at which anybody attacks, or falls
// silent so that a rest begins, and adds up what the grace notes before it take.
func signsUntil(s *score.Section, end beat.Time) (all []beat.Time, graces int) {
	all = append(all, end)
	for strike := range s.Moments() {
		if strike.Time >= end {
			break
		}
		all = append(all, strike.Time)
		most := 0
		for _, a := range strike.Attacks {
			if over := strike.Time + a.Length; over < end {
				all = append(all, over)
			}
			most = max(most, len(a.Graces))
		}
		graces += sheet.GraceRoom(most)
	}
	slices.Sort(all)
	return slices.Compact(all), graces
}
