package engraving

import (
	"slices"
	"sort"

	"tieover/export/engraving/canvas"
	"tieover/export/engraving/pen"
	"tieover/layout/sheet"
)

// slurs draws the curves over what is slurred, also over the ends of the line.
func (l *line) slurs() {
	for k := range l.Voices {
		v := &l.Voices[k]
		var under []int // spots of the slur at hand
		open := l.e.slurs[v.Key]
		led := open // it comes from the line before
		for _, i := range v.Spots {
			n := l.spots[i].Note
			if n == nil {
				continue
			}
			if n.Slur.Starts {
				open = true
			}
			if !open {
				continue
			}
			under = append(under, i)
			if n.Slur.Stops {
				l.slur(under, led, false)
				under, open, led = nil, false, false
			}
		}
		if open && len(under) > 0 {
			l.slur(under, led, true)
		}
		l.e.slurs[v.Key] = open
	}
}

// Slurs.
const (
	slurAir    pen.Unit = 45 // from what is under it
	slurRound  pen.Unit = 65 // least height over its ends
	slurDots   pen.Unit = 90 // what signs of articulation beside a head take
	slurSteps           = 64 // pieces of the curve
	slurFine            = 16 // pieces of each where it is looked at closely
	slurRise   pen.Unit = 8  // a piece that rises more is taken apart
	steepSlur  pen.Unit = 45 // percent of its width that a curve is high at most
	slurRaised pen.Unit = 20 // how far an end moves out at a time where that is not enough
)

// arc is a slur: a curve between two points, so high that it clears what is under
// it. Its inner points are at a quarter of its width from either end.
type arc struct {
	x0, y0, x1, y1 pen.Unit
	height         pen.Unit
	away           pen.Unit // -1 above, 1 below
}

// at is a point of the curve, after k of n steps.
func (a *arc) at(k, n int) (x, y pen.Unit) {
	j, t := pen.Unit(n-k), pen.Unit(k)
	p0, p1, p2, p3 := j*j*j, 3*j*j*t, 3*j*t*t, t*t*t
	all := pen.Unit(n * n * n)
	w := a.x1 - a.x0
	c0, c1 := a.y0+a.away*a.height, a.y1+a.away*a.height
	return (a.x0*p0 + (a.x0+w/4)*p1 + (a.x1-w/4)*p2 + a.x1*p3) / all, (a.y0*p0 + c0*p1 + c1*p2 + a.y1*p3) / all
}

// obstacle is how far something reaches towards the curve.
type obstacle struct{ x, y pen.Unit }

// clear raises the curve until nothing is in its way: its middle first, and its ends
// where it would be too steep.
func (a *arc) clear(under []obstacle) {
	for range 40 {
		a.height = max(slurRound, min(130, (a.x1-a.x0).Percent(15)))
		most := max(a.height, (a.x1 - a.x0).Percent(int(steepSlur)))
		var worst *obstacle
		for i := range under {
			o := &under[i]
			if need := a.needed(o); need > a.height {
				a.height = need
				worst = o
			}
		}
		if a.height <= most {
			return
		}
		if worst.x < (a.x0+a.x1)/2 {
			a.y0 += a.away * slurRaised
		} else {
			a.y1 += a.away * slurRaised
		}
	}
}

// needed is how high the curve must be to clear something.
func (a *arc) needed(o *obstacle) pen.Unit {
	const n = slurSteps * slurFine
	flat := *a
	flat.height = 0
	k := 1 + sort.Search(n-1, func(k int) bool { x, _ := flat.at(k+1, n); return x >= o.x })
	if k == n {
		return 0
	}
	_, y := flat.at(k, n)
	short := a.away * (o.y - y) // how far it must rise here
	return max(0, short*n*n/(3*pen.Unit(k)*pen.Unit(n-k)))
}

// slur draws a slur over spots; it may come from the line before and go on to the
// next.
func (l *line) slur(spots []int, fromBefore, goesOn bool) {
	above := l.slurAbove(spots)
	first, last := &l.spots[spots[0]], &l.spots[spots[len(spots)-1]]
	st := &l.Staves[first.Staff]
	a := arc{away: 1}
	if above {
		a.away = -1
	}
	start, end := l.slurPoint(first, above), l.slurPoint(last, above)
	a.x0, a.y0, a.x1, a.y1 = start.x, start.y, end.x, end.y
	if fromBefore {
		a.x0 = min(l.Music(0)+20, start.x-leastTie)
	}
	if goesOn {
		a.x1 = max(l.Right()-20, min(end.x+leastTie, l.Width-5))
	}
	var under []obstacle
	for _, i := range spots {
		if o := l.slurPoint(&l.spots[i], above); o.x > a.x0+20 && o.x < a.x1-20 {
			under = append(under, o)
		}
	}
	under = append(under, l.headsUnder(first.Staff, above, a.x0, a.x1)...)
	for x := a.x0 + canvas.Cell; x < a.x1-canvas.Cell/2; x += canvas.Cell / 2 {
		x = min(x, a.x1-canvas.Cell)
		if y := st.Outside(a.away, x, x); a.away*y > st.Reach() {
			under = append(under, obstacle{x, y + a.away*slurAir})
		}
	}
	a.clear(under)
	a.draw(&st.Fills)
	l.takeCurve(first.Staff, &a)
}

// takeCurve puts a curve on the skyline piece by piece, steep ones in small pieces.
func (l *line) takeCurve(staff int, a *arc) {
	x0, y0 := a.at(0, slurSteps)
	for k := range slurSteps {
		_, end := a.at(k+1, slurSteps)
		n := 1 + int(max(end-y0, y0-end)/slurRise)
		for i := 1; i <= n; i++ {
			x, y := a.at(k*n+i, slurSteps*n)
			l.Staves[staff].Add(x0, x, min(y0, y)-10, max(y0, y)+10)
			l.Watched("slur", staff, x0, min(y0, y), x, max(y0, y))
			x0, y0 = x, y
		}
	}
}

// headsUnder are the corners of all heads and accidentals on a staff between two
// places, those of grace notes among them.
func (l *line) headsUnder(staff int, above bool, x0, x1 pen.Unit) (under []obstacle) {
	for i := range l.spots {
		s := &l.spots[i]
		if s.Note == nil || s.Staff != staff {
			continue
		}
		under = append(under, s.corners(above)...)
		graces := s.graceSpots()
		for k := range graces {
			under = append(under, graces[k].corners(above)...)
		}
	}
	return slices.DeleteFunc(under, func(o obstacle) bool { return o.x <= x0 || o.x >= x1 })
}

// corners are what a note's heads and accidentals have on the side of a slur.
func (s *spot) corners(above bool) (all []obstacle) {
	add := func(left, right, y pen.Unit) { all = append(all, obstacle{left - 8, y}, obstacle{right + 8, y}) }
	y := s.Bottom() + 65
	if above {
		y = s.Top() - 65
	}
	for h := range s.Pos {
		left := s.X + s.HeadX(h)
		add(left, left+s.Width(h), y)
		if s.Note.Heads[h].Accidental == sheet.NoSign || s.Shared {
			continue
		}
		sign, reach := s.AccidentalOf(h), s.X+s.SignX[h]
		if above {
			add(reach, reach+sign.Width, s.Y(h)-sign.Up-15)
		} else {
			add(reach, reach+sign.Width, s.Y(h)+sign.Down+15)
		}
	}
	return all
}

// draw draws a slur, thin at its ends.
func (a *arc) draw(p *pen.Path) {
	w := a.x1 - a.x0
	c0, c1, thick := a.y0+a.away*a.height, a.y1+a.away*a.height, a.away*tieThick
	p.At('M', a.x0, a.y0)
	p.At('C', a.x0+w/4, c0, a.x1-w/4, c1, a.x1, a.y1)
	p.At('C', a.x1-w/4, c1+thick, a.x0+w/4, c0+thick, a.x0, a.y0)
	*p = append(*p, 'z')
}

// slurAbove chooses the side of a slur: that of the heads if all stems go one way,
// else above; a voice with a side keeps it.
func (l *line) slurAbove(spots []int) bool {
	first := &l.spots[spots[0]]
	if !first.Free() && !first.Lone {
		return first.Voice.Stem == sheet.StemUp
	}
	for _, i := range spots {
		if !l.spots[i].Up {
			return true
		}
	}
	return false
}

// slurPoint is where a slur passes a note: at the head, clear of its dots and
// accents, or at the end of the stem.
func (l *line) slurPoint(s *spot, above bool) obstacle {
	away, y := pen.Unit(1), s.Bottom()
	if above {
		away, y = -1, s.Top()
	}
	o := obstacle{s.X + s.Shift + s.Size(59), y + away*(50+slurAir)}
	if s.Up == above && s.HasStem() {
		o = obstacle{s.stemX(), s.tip + away*slurAir}
	} else if l.above(s) == above && (s.Note.Accent || s.Note.Touch != 0) {
		o.y += away * slurDots
	}
	if out := l.Staves[s.Staff].Outside(away, o.x-30, o.x+30); away*out > l.Staves[s.Staff].Reach() && away*(out+away*slurAir) > away*o.y {
		o.y = out + away*slurAir
	}
	return o
}
