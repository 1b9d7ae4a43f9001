package engraving

import (
	"strconv"

	"tieover/export/engraving/canvas"
	"tieover/export/engraving/pen"
	"tieover/export/engraving/spacing"
	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/instrument"
)

// lineOf is the line that a clef names, from the middle line.
func lineOf(c instrument.Clef) pen.Unit {
	if c.Sign == 'P' {
		return 0
	}
	return -pen.Unit(c.Line-3) * pen.Space
}

// drawClef draws a clef from its left edge.
func drawClef(p *pen.Path, k *pen.Ink, c instrument.Clef, x pen.Unit, percent int) {
	y := lineOf(c)
	switch c.Sign {
	case 'G':
		p.Sign(pen.ClefG, x+pen.Unit(135).Percent(percent), y, percent)
	case 'F':
		p.Sign(pen.ClefF, x+pen.Unit(45).Percent(percent), y, percent)
	case 'C':
		p.Sign(pen.ClefC, x, y, percent)
	default:
		p.Sign(pen.ClefPercussion, x+20, y, percent)
	}
	f := pen.OctaveFace
	f.Size = f.Size.Percent(percent)
	switch x += pen.Unit(165).Percent(percent); {
	case c.Octave < 0:
		k.Text(x, y+pen.Unit(340).Percent(percent), "8", f)
	case c.Octave > 0:
		k.Text(x, y-pen.Unit(450).Percent(percent), "8", f)
	}
}

// clefReach is how far a clef reaches from the middle line.
func clefReach(c instrument.Clef, percent int) (up, down pen.Unit) {
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
	return y + up.Percent(percent), y + down.Percent(percent)
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
func drawKey(p *pen.Path, c instrument.Clef, k spacing.KeySigns, x pen.Unit) {
	s, places := pen.SignSharp, sharpPlaces
	if k.Fifths < 0 {
		s, places = pen.SignFlat, flatPlaces
	}
	if k.Naturals {
		s = pen.SignNatural
	}
	for i := range k.Count() {
		p.Sign(s, x, -pen.Unit(keyPlace(c, places[i]))*pen.Space/2, pen.FullSize)
		x += k.Step()
	}
}

func numberWidth(n int) pen.Unit { return pen.Unit(sheet.NumberWidth(n)) }

// drawNumber draws the digits of a number and returns where they end.
func drawNumber(p *pen.Path, n int, x, y pen.Unit) pen.Unit {
	for _, c := range strconv.Itoa(n) {
		p.Sign(pen.Digit(c), x+6, y, pen.FullSize)
		x += pen.Unit(sheet.DigitWidth(c))
	}
	return x
}

// drawTime draws a time signature from its left edge.
func drawTime(p *pen.Path, s score.Signature, x pen.Unit) {
	for i, t := range s.Terms {
		if i > 0 {
			p.Sign(pen.PlusSign, x+15, 0, pen.FullSize)
			x += sheet.JoinWidth
		}
		upper, lower := pen.Unit(sheet.GroupsWidth(t)), numberWidth(t.Unit)
		w := max(upper, lower)
		at := x + (w-upper)/2
		for j, g := range t.Groups {
			if j > 0 {
				p.Sign(pen.PlusSign, at+10, -pen.Space, pen.FullSize)
				at += sheet.PlusWidth
			}
			at = drawNumber(p, g, at, -pen.Space)
		}
		drawNumber(p, t.Unit, x+(w-lower)/2, pen.Space)
		x += w
	}
}

// skylines begin at the lines of the staves, with the signs at the edges of bars.
func (l *line) skylines() {
	n := int(l.Width+l.Tail.Width)/int(canvas.Cell) + 8
	if need := 2 * n * len(l.Staves); cap(l.e.skies) < need {
		l.e.skies = make([]pen.Unit, need)
	}
	room := l.e.skies[:cap(l.e.skies)]
	for i := range l.Staves {
		s := &l.Staves[i]
		s.Up, s.Down, room = room[:n:n], room[n:2*n:2*n], room[2*n:]
		for k := range s.Up {
			s.Up[k], s.Down[k] = -s.Reach(), s.Reach()
		}
	}
	for b := range l.Rows {
		for i := range l.Staves {
			l.addPrefix(b, i)
		}
		if l.Rows[b].Rest > 0 {
			mid := l.Middle(b)
			for i := range l.Staves {
				if l.Staves[i].Tab {
					continue
				}
				l.Staves[i].Add(mid-300, mid+300, -450, 100) // a tempo's number beside that of the bars would be read as one
			}
		}
	}
}

func (l *line) addPrefix(b, i int) {
	s := &l.Staves[i]
	if s.Tab { // everything stands between its lines
		return
	}
	p, x := &l.Prefix[b], l.Edges[b]
	if p.Clef >= 0 {
		up, down := clefReach(l.ClefIn(b, i), pen.FullSize)
		s.Add(x+p.Clef+50, x+p.Clef+230, up, down)
	}
	if c, turns := l.Turn(b, i); turns {
		up, down := clefReach(c, spacing.SmallClef)
		s.Add(l.TurnX(b), l.TurnX(b)+spacing.ClefRoom.Percent(spacing.SmallClef), up, down)
	}
	if k := l.KeyBefore(b, i); k.Width() > 0 {
		s.Add(x+p.Key, x+p.Key+k.Width()-spacing.KeyLead, -330, 250)
	}
	if bar := &l.Rows[b].Bars[s.Part]; p.Time >= 0 && bar.NewMeter {
		s.Add(x+p.Time, x+p.Time+spacing.TimeWidth(bar.Measure.Signature), -200, 200)
	}
}
