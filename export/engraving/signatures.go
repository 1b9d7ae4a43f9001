package engraving

import (
	"strconv"

	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/instrument"
)

// lineOf is the line that a clef names, from the middle line.
func lineOf(c instrument.Clef) unit {
	if c.Sign == 'P' {
		return 0
	}
	return -unit(c.Line-3) * space
}

// drawClef draws a clef from its left edge.
func drawClef(p *path, k *ink, c instrument.Clef, x unit, percent int) {
	y := lineOf(c)
	switch c.Sign {
	case 'G':
		p.sign(clefG, x+unit(135).percent(percent), y, percent)
	case 'F':
		p.sign(clefF, x+unit(45).percent(percent), y, percent)
	case 'C':
		p.sign(clefC, x, y, percent)
	default:
		p.sign(clefPercussion, x+20, y, percent)
	}
	f := octaveFace
	f.size = f.size.percent(percent)
	switch x += unit(165).percent(percent); {
	case c.Octave < 0:
		k.text(x, y+unit(340).percent(percent), "8", f)
	case c.Octave > 0:
		k.text(x, y-unit(450).percent(percent), "8", f)
	}
}

// clefReach is how far a clef reaches from the middle line.
func clefReach(c instrument.Clef, percent int) (up, down unit) {
	y := lineOf(c)
	up, down = -200, 200
	if c.Sign == 'G' {
		up, down = -445, 270
	}
	if c.Octave < 0 {
		down = 360
	}
	if c.Octave > 0 {
		up = -580
	}
	if c.Sign == 'F' {
		up, down = up+100, down+100
	}
	return y + up.percent(percent), y + down.percent(percent)
}

// keyPlace moves the place of a sign of a key signature from the treble clef to
// another, in halves of a space above the middle line. In the tenor clef those that
// would leave the staff stand an octave lower (common practice).
func keyPlace(c instrument.Clef, treble int) int {
	switch {
	case c.Sign == 'F':
		return treble - 2
	case c.Sign == 'C' && c.Line == 3:
		return treble - 1
	case c.Sign == 'C' && treble+1 > 4:
		return treble + 1 - 7
	case c.Sign == 'C':
		return treble + 1
	}
	return treble
}

// Where the signs of a key signature stand in treble clef, in halves of a space
// above the middle line, in their order.
var sharpPlaces, flatPlaces = [7]int{4, 1, 5, 2, -1, 3, 0}, [7]int{0, 3, -1, 2, -2, 1, -3}

// drawKey draws the signs of a key.
func drawKey(p *path, c instrument.Clef, k keySigns, x unit) {
	s, places := signSharp, sharpPlaces
	if k.fifths < 0 {
		s, places = signFlat, flatPlaces
	}
	if k.naturals {
		s = signNatural
	}
	for i := range k.count() {
		p.sign(s, x, -unit(keyPlace(c, places[i]))*space/2, fullSize)
		x += k.step()
	}
}

func numberWidth(n int) unit { return unit(sheet.NumberWidth(n)) }

// drawNumber draws the digits of a number and returns where they end.
func drawNumber(p *path, n int, x, y unit) unit {
	for _, c := range strconv.Itoa(n) {
		p.sign(digit(c), x+6, y, fullSize)
		x += unit(sheet.DigitWidth(c))
	}
	return x
}

// drawTime draws a time signature from its left edge.
func drawTime(p *path, s score.Signature, x unit) {
	for i, t := range s.Terms {
		if i > 0 {
			p.sign(plusSign, x+15, 0, fullSize)
			x += sheet.JoinWidth
		}
		upper, lower := unit(sheet.GroupsWidth(t)), numberWidth(t.Unit)
		w := max(upper, lower)
		at := x + (w-upper)/2
		for j, g := range t.Groups {
			if j > 0 {
				p.sign(plusSign, at+10, -space, fullSize)
				at += sheet.PlusWidth
			}
			at = drawNumber(p, g, at, -space)
		}
		drawNumber(p, t.Unit, x+(w-lower)/2, space)
		x += w
	}
}

// skylines begin at the lines of the staves, with the signs at the edges of bars.
func (l *line) skylines() {
	n := int(l.width+l.tail.width)/int(cell) + 8
	if need := 2 * n * len(l.staves); cap(l.e.skies) < need {
		l.e.skies = make([]unit, need)
	}
	room := l.e.skies[:cap(l.e.skies)]
	for i := range l.staves {
		s := &l.staves[i]
		s.up, s.down, room = room[:n:n], room[n:2*n:2*n], room[2*n:]
		for k := range s.up {
			s.up[k], s.down[k] = -s.reach(), s.reach()
		}
	}
	for b := range l.rows {
		for i := range l.staves {
			l.addPrefix(b, i)
		}
		if l.rows[b].rest > 0 {
			mid := l.middle(b)
			for i := range l.staves {
				if l.staves[i].tab {
					continue
				}
				l.staves[i].add(mid-200, mid+200, -450, 100)
			}
		}
	}
}

func (l *line) addPrefix(b, i int) {
	s := &l.staves[i]
	if s.tab { // everything stands between its lines
		return
	}
	p, x := &l.prefix[b], l.edges[b]
	if p.clef >= 0 {
		up, down := clefReach(l.clefIn(b, i), fullSize)
		s.add(x+p.clef+50, x+p.clef+230, up, down)
	}
	if c, turns := l.turn(b, i); turns {
		up, down := clefReach(c, smallClef)
		s.add(l.turnX(b), l.turnX(b)+clefRoom.percent(smallClef), up, down)
	}
	if k := l.keyBefore(b, i); k.width() > 0 {
		s.add(x+p.key, x+p.key+k.width()-keyLead, -330, 250)
	}
	if bar := &l.rows[b].bars[s.part]; p.time >= 0 && bar.NewMeter {
		s.add(x+p.time, x+p.time+timeWidth(bar.Measure.Signature), -200, 200)
	}
}
