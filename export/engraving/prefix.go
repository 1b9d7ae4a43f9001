package engraving

import (
	"strconv"

	"tieover/layout/sheet"
	"tieover/score"
	"tieover/score/instrument"
)

// A bar begins with signs that stand before its music: the clef at the start of
// a line, a key signature, a time signature. prefix sets them out.
type prefix struct {
	width unit
	clef  unit // where the clefs stand; -1 without
	key   unit // where key signatures stand; -1 without
	time  unit
}

// Room of the signs at a bar's start.
const (
	clefLead  unit = 60
	clefRoom  unit = 260
	drumRoom  unit = 160
	keyLead   unit = 50
	keyTail   unit = 20
	timeLead  unit = 65
	timeTail  unit = 45
	sharpStep unit = 105
	flatStep  unit = 85
	plusRoom  unit = 125
)

// keySigns is what a change of key prints: sharps, or flats as a negative
// number, and how many naturals before them take the old ones back.
type keySigns struct{ fifths, naturals int }

// change returns what is printed where one key follows another; the signs of a
// key are taken back only where none follow.
func change(old, now score.Key) keySigns {
	if now.Fifths == 0 {
		return keySigns{naturals: old.Fifths}
	}
	return keySigns{fifths: now.Fifths}
}

func (k keySigns) width() unit {
	n, step := k.fifths, sharpStep
	if k.naturals != 0 {
		n = max(k.naturals, -k.naturals)
		step = flatStep
	}
	if n < 0 {
		n, step = -n, flatStep
	}
	if n == 0 {
		return 0
	}
	return keyLead + unit(n)*step + keyTail
}

// keyBefore returns what is printed of the key at the start of a bar on a staff.
// At the start of a line no signs are taken back: the line before has done so.
func (l *line) keyBefore(b, i int) keySigns {
	st := &l.staves[i]
	bar := &l.rows[b].bars[st.part]
	switch {
	case l.clefIn(b, i).Sign == 'P' || st.tab:
	case b == 0:
		return keySigns{fifths: bar.Measure.Key.Fifths}
	case bar.NewKey:
		return change(l.rows[b-1].bars[st.part].Measure.Key, bar.Measure.Key)
	}
	return keySigns{}
}

// told returns the key that the end of a line announces, in the clef to come.
func (l *line) told(i int) keySigns {
	st := &l.staves[i]
	if l.next == nil || !l.next.bars[st.part].NewKey || l.clefOf(l.next, i).Sign == 'P' || st.tab {
		return keySigns{}
	}
	last := l.rows[len(l.rows)-1].bars[st.part].Measure.Key
	return change(last, l.next.bars[st.part].Measure.Key)
}

// toldTime returns the signature that the end of a line announces.
func (l *line) toldTime() (score.Signature, bool) {
	if l.next == nil || !l.next.bars[0].NewMeter {
		return score.Signature{}, false
	}
	return l.next.bars[0].Measure.Signature, true
}

// prefixOf sets out the signs before the music of a bar.
func (l *line) prefixOf(b int) (p prefix) {
	p.clef, p.key, p.time = -1, -1, -1
	if b == 0 {
		p.clef = clefLead
		room := drumRoom
		for i := range l.staves {
			if l.clefIn(0, i).Sign != 'P' {
				room = clefRoom
			}
		}
		p.width = clefLead + room + 20
	}
	signature := unit(-1)
	keys := unit(0)
	for i := range l.staves {
		keys = max(keys, l.keyBefore(b, i).width())
		if bar := &l.rows[b].bars[l.staves[i].part]; bar.NewMeter {
			signature = max(signature, timeWidth(bar.Measure.Signature))
		}
	}
	if keys > 0 {
		p.key = p.width + keyLead
		p.width += keys
	}
	if signature >= 0 {
		p.time = p.width + timeLead
		p.width += timeLead + signature + timeTail
	}
	return p
}

// suffix is the room after the last barline for what the line's end announces.
func (l *line) suffix() (p prefix) {
	p.clef, p.key, p.time = -1, -1, -1
	keys := unit(0)
	for i := range l.staves {
		keys = max(keys, l.told(i).width())
	}
	if keys > 0 {
		p.key = keyLead
		p.width += keys
	}
	if s, ok := l.toldTime(); ok {
		p.time = p.width + timeLead
		p.width += timeLead + timeWidth(s) + 25
	}
	return p
}

// Where the signs of a key signature stand in treble clef, in halves of a space
// above the middle line, in their order.
var sharpPlaces, flatPlaces = [7]int{4, 1, 5, 2, -1, 3, 0}, [7]int{0, 3, -1, 2, -2, 1, -3}

// drawKey draws the signs of a key.
func drawKey(p *path, c instrument.Clef, k keySigns, x unit) {
	s, places, n, step := signSharp, sharpPlaces, k.fifths, sharpStep
	if k.naturals != 0 {
		s, n, step = signNatural, k.naturals, flatStep
	}
	if n < 0 {
		n, places = -n, flatPlaces
		if k.naturals == 0 {
			s, step = signFlat, flatStep
		}
	}
	for i := range n {
		p.sign(s, x, -unit(keyPlace(c, places[i]))*space/2, fullSize)
		x += step
	}
}

// digitWidth is how wide a digit of a time signature is.
func digitWidth(c byte) unit {
	if c == '1' {
		return 132
	}
	return 156
}

func numberWidth(n int) (w unit) {
	for _, c := range []byte(strconv.Itoa(n)) {
		w += digitWidth(c)
	}
	return w
}

func drawNumber(p *path, n int, x, y unit) unit {
	for _, c := range []byte(strconv.Itoa(n)) {
		p.sign(digit(c), x+6, y, fullSize)
		x += digitWidth(c)
	}
	return x
}

// upperWidth is how wide the upper line of a term of a time signature is.
func upperWidth(t score.Term) (w unit) {
	for j, g := range t.Groups {
		if j > 0 {
			w += plusRoom
		}
		w += numberWidth(g)
	}
	return w
}

func timeWidth(s score.Signature) unit { return unit(sheet.SignatureWidth(s)) }

// drawTime draws a time signature from its left edge.
func drawTime(p *path, s score.Signature, x unit) {
	for i, t := range s.Terms {
		if i > 0 {
			p.sign(plusSign, x+15, 0, fullSize)
			x += plusRoom + 5
		}
		w := max(upperWidth(t), numberWidth(t.Unit))
		at := x + (w-upperWidth(t))/2
		for j, g := range t.Groups {
			if j > 0 {
				p.sign(plusSign, at+10, -space, fullSize)
				at += plusRoom
			}
			at = drawNumber(p, g, at, -space)
		}
		drawNumber(p, t.Unit, x+(w-numberWidth(t.Unit))/2, space)
		x += w
	}
}
