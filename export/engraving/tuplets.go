package engraving

import (
	"strconv"

	"tieover/export/engraving/pen"
	"tieover/layout/sheet"
)

// tuplets draws the numbers of tuplets, and brackets where no beam shows which
// notes belong together.
func (l *line) tuplets() {
	for _, v := range l.Voices {
		var open []int
		for _, i := range v.Spots {
			start, stop, t := sheet.TupletEdges(l.spots[i].Event)
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

const tupletHook pen.Unit = 70

func (l *line) tuplet(spots []int, t *sheet.Tuplet) {
	if !t.ShowNumber && !t.Bracket {
		return
	}
	first, last := &l.spots[spots[0]], &l.spots[spots[len(spots)-1]]
	st := &l.Staves[first.Staff]
	away, beam := l.sideOf(spots)
	x0, x1 := first.X-10, last.X+128
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
	half := pen.TupletFace.Width(text) / 2
	mid := (x0 + x1) / 2
	var y pen.Unit // the middle of the number
	switch {
	case t.Bracket:
		x1 = max(x1, x0+2*half+2*tupletHook)
		mid = (x0 + x1) / 2
		hook := st.Outside(away, x0, x1)
		y = hook + away*tupletHook
		gap := half
		if text != "" {
			gap += 30
		}
		st.Strokes.At('M', x0, hook)
		st.Strokes.At('V', y)
		st.Strokes.At('H', mid-gap)
		st.Strokes.At('M', mid+gap, y)
		st.Strokes.At('H', x1)
		st.Strokes.At('V', hook)
		st.Add(x0, x1, hook-away*10, y+away*10)
	case beam != nil:
		y = pen.Farther(away, beam.at(mid)+away*85, st.Outside(away, mid-half, mid+half)+away*70)
	default:
		y = st.Outside(away, x0, x1) + away*80
	}
	l.Watched("tuplet", first.Staff, mid-half, y-50, mid+half, y+50)
	st.Texts.Text(mid, y+55, text, pen.TupletFace)
	st.Add(mid-half, mid+half, y-65, y+65)
}

// sideOf chooses the side of a tuplet: that of its stems, or of its voice; and
// returns the beam over all of it, if there is one on that side.
func (l *line) sideOf(spots []int) (away pen.Unit, beam *beamGroup) {
	ups, group := 0, -1
	for k, i := range spots {
		s := &l.spots[i]
		switch {
		case k == 0:
			group = s.group
		case s.group != group:
			group = -1
		}
		if s.Note == nil {
			group = -1
			continue
		}
		if s.Up {
			ups++
		} else {
			ups--
		}
	}
	up := ups >= 0
	if first := &l.spots[spots[0]]; !first.Free() {
		up = first.Voice.Stem == sheet.StemUp
	}
	if group >= 0 && l.groups[group].up == up {
		beam = &l.groups[group]
	}
	return pen.Direction(up), beam
}
