package engraving

import (
	"tieover/layout/sheet"
	"tieover/score"
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
)

// keySigns are the signs of a key: so many sharps, or flats as a negative number, or
// the naturals that take them back.
type keySigns struct {
	fifths   int
	naturals bool
}

// change returns what is printed where one key follows another; the signs of a
// key are taken back only where none follow.
func change(old, now score.Key) keySigns {
	if now.Fifths == 0 {
		return keySigns{old.Fifths, true}
	}
	return keySigns{now.Fifths, false}
}

func (k keySigns) count() int { return max(k.fifths, -k.fifths) }

// step is how far it is from one sign to the next.
func (k keySigns) step() unit {
	if k.fifths > 0 && !k.naturals {
		return sharpStep
	}
	return flatStep
}

func (k keySigns) width() unit {
	if k.fifths == 0 {
		return 0
	}
	return keyLead + unit(k.count())*k.step() + keyTail
}

// keyBefore returns what is printed of the key at the start of a bar on a staff.
// At the start of a line no signs are taken back: the line before has done so.
func (l *spaced) keyBefore(b, i int) keySigns {
	st := &l.s.staves[i]
	bar := &l.rows[b].bars[st.part]
	switch {
	case l.clefIn(b, i).Sign == 'P' || st.tab:
	case b == 0:
		return keySigns{bar.Measure.Key.Fifths, false}
	case bar.NewKey:
		return change(l.rows[b-1].bars[st.part].Measure.Key, bar.Measure.Key)
	}
	return keySigns{}
}

// keyAfter returns the key that the end of a line announces, in the clef to come.
func (l *spaced) keyAfter(i int) keySigns {
	st := &l.s.staves[i]
	if l.next == nil || !l.next.bars[st.part].NewKey || l.clefOf(l.next, i).Sign == 'P' || st.tab {
		return keySigns{}
	}
	last := l.rows[len(l.rows)-1].bars[st.part].Measure.Key
	return change(last, l.next.bars[st.part].Measure.Key)
}

// timeAfter returns the signature that the end of a line announces.
func (l *spaced) timeAfter() (score.Signature, bool) {
	if l.next == nil || !l.next.bars[0].NewMeter {
		return score.Signature{}, false
	}
	return l.next.bars[0].Measure.Signature, true
}

// prefixOf sets out the signs before the music of a bar.
func (l *spaced) prefixOf(b int) prefix {
	p := prefix{clef: -1, key: -1, time: -1}
	if b == 0 {
		p.clef = clefLead
		room := drumRoom
		for i := range l.s.staves {
			if l.clefIn(0, i).Sign != 'P' {
				room = clefRoom
			}
		}
		p.width = clefLead + room + 20
	}
	keys, signature := unit(0), unit(0)
	for i := range l.s.staves {
		keys = max(keys, l.keyBefore(b, i).width())
		if bar := &l.rows[b].bars[l.s.staves[i].part]; bar.NewMeter {
			signature = max(signature, timeWidth(bar.Measure.Signature))
		}
	}
	p.add(keys, signature, timeTail)
	return p
}

// suffix is the room after the last barline for what the line's end announces.
func (l *spaced) suffix() prefix {
	p := prefix{clef: -1, key: -1, time: -1}
	keys, signature := unit(0), unit(0)
	for i := range l.s.staves {
		keys = max(keys, l.keyAfter(i).width())
	}
	if s, ok := l.timeAfter(); ok {
		signature = timeWidth(s)
	}
	p.add(keys, signature, 25)
	return p
}

// add makes room for signatures as wide as given; 0 for none.
func (p *prefix) add(keys, signature, tail unit) {
	if keys > 0 {
		p.key = p.width + keyLead
		p.width += keys
	}
	if signature > 0 {
		p.time = p.width + timeLead
		p.width += timeLead + signature + tail
	}
}

func timeWidth(s score.Signature) unit { return unit(sheet.SignatureWidth(s)) }
