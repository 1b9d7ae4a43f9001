package engraving

import (
	"strconv"

	"tieover/layout/sheet"
)

// tuplets draws the numbers of tuplets, and brackets where no beam shows which
// notes belong together.
func (l *line) tuplets() {
	for _, v := range l.voices {
		var open []int
		for _, i := range v.spots {
			start, stop, t := sheet.TupletEdges(l.spots[i].event)
			if t == nil {
				continue
			}
			if start {
				open = open[:0]
			}
			open = append(open, i)
			if stop {
				l.tuplet(open, t)
				open = open[:0]
			}
		}
	}
}

const tupletHook unit = 70

func (l *line) tuplet(spots []int, t *sheet.Tuplet) {
	if !t.ShowNumber && !t.Bracket {
		return
	}
	first, last := &l.spots[spots[0]], &l.spots[spots[len(spots)-1]]
	st := &l.staves[first.staff]
	away, beam := l.sideOf(spots)
	x0, x1 := first.x-10, last.x+128
	if beam != nil {
		x0, x1 = first.stemX(), last.stemX()
	}
	text := ""
	if t.ShowNumber {
		text = strconv.Itoa(t.Actual)
		if t.ShowRatio {
			text += ":" + strconv.Itoa(t.Normal)
		}
	}
	half := tupletFace.width(text) / 2
	mid := (x0 + x1) / 2
	var y unit // the middle of the number
	switch {
	case t.Bracket:
		x1 = max(x1, x0+2*half+2*tupletHook)
		mid = (x0 + x1) / 2
		hook := st.outside(away, x0, x1)
		y = hook + away*tupletHook
		gap := half
		if text != "" {
			gap += 30
		}
		st.strokes.at('M', x0, hook)
		st.strokes.at('V', y)
		st.strokes.at('H', mid-gap)
		st.strokes.at('M', mid+gap, y)
		st.strokes.at('H', x1)
		st.strokes.at('V', hook)
		st.add(x0, x1, hook-away*10, y+away*10)
	case beam != nil:
		y = farther(away, beam.at(mid)+away*85, st.outside(away, mid-half, mid+half)+away*70)
	default:
		y = st.outside(away, x0, x1) + away*80
	}
	l.watched("tuplet", first.staff, mid-half, y-50, mid+half, y+50)
	st.texts.text(mid, y+55, text, tupletFace)
	st.add(mid-half, mid+half, y-65, y+65)
}

// sideOf chooses the side of a tuplet: that of its stems, or of its voice; and
// returns the beam over all of it, if there is one on that side.
func (l *line) sideOf(spots []int) (away unit, beam *beamGroup) {
	ups, group := 0, -1
	for k, i := range spots {
		s := &l.spots[i]
		switch {
		case k == 0:
			group = s.group
		case s.group != group:
			group = -1
		}
		if s.note == nil {
			group = -1
			continue
		}
		if s.up {
			ups++
		} else {
			ups--
		}
	}
	up := ups >= 0
	if first := &l.spots[spots[0]]; !first.free() {
		up = first.voice.Stem == sheet.StemUp
	}
	if group >= 0 && l.groups[group].up == up {
		beam = &l.groups[group]
	}
	return direction(up), beam
}
