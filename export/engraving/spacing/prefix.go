package spacing

import (
	"tieover/export/engraving/pen"
	"tieover/layout/sheet"
	"tieover/score"
)

// Prefix is what stands before the music of a bar: the clef at the start of a line, a
// key signature, a time signature.
type Prefix struct {
	Width pen.Unit
	Clef  pen.Unit // where the clefs stand; -1 without
	Key   pen.Unit // where key signatures stand; -1 without
	Time  pen.Unit // where time signatures stand; -1 without
}

// Room of the signs at a bar's start.
const (
	clefLead  pen.Unit = 60
	ClefRoom  pen.Unit = 260
	drumRoom  pen.Unit = 160
	KeyLead   pen.Unit = 50
	keyTail   pen.Unit = 20
	timeLead  pen.Unit = 65
	timeTail  pen.Unit = 45
	sharpStep pen.Unit = 105
	flatStep  pen.Unit = 85
)

// KeySigns are the signs of a key: so many sharps, or flats as a negative number, or
// the naturals that take them back.
type KeySigns struct {
	Fifths   int
	Naturals bool
}

// change returns what is printed where one key follows another; the signs of a
// key are taken back only where none follow.
func change(old, now score.Key) KeySigns {
	if now.Fifths == 0 {
		return KeySigns{old.Fifths, true}
	}
	return KeySigns{now.Fifths, false}
}

// Count returns how many signs there are.
func (k KeySigns) Count() int { return max(k.Fifths, -k.Fifths) }

// Step is how far it is from one sign to the next.
func (k KeySigns) Step() pen.Unit {
	if k.Fifths > 0 && !k.Naturals {
		return sharpStep
	}
	return flatStep
}

// Width is the room of the signs, 0 for none.
func (k KeySigns) Width() pen.Unit {
	if k.Fifths == 0 {
		return 0
	}
	return KeyLead + pen.Unit(k.Count())*k.Step() + keyTail
}

// KeyBefore returns what is printed of the key at the start of a bar on a staff.
// At the start of a line no signs are taken back: the line before has done so.
func (l *Line) KeyBefore(b, i int) KeySigns {
	st := &l.s.Staves[i]
	bar := &l.Rows[b].Bars[st.Part]
	switch {
	case l.ClefIn(b, i).Sign == 'P' || st.Tab:
	case b == 0:
		return KeySigns{bar.Measure.Key.Fifths, false}
	case bar.NewKey:
		return change(l.Rows[b-1].Bars[st.Part].Measure.Key, bar.Measure.Key)
	}
	return KeySigns{}
}

// KeyAfter returns the key that the end of a line announces, in the clef to come.
func (l *Line) KeyAfter(i int) KeySigns {
	st := &l.s.Staves[i]
	if l.Next == nil || !l.Next.Bars[st.Part].NewKey || l.ClefOf(l.Next, i).Sign == 'P' || st.Tab {
		return KeySigns{}
	}
	last := l.Rows[len(l.Rows)-1].Bars[st.Part].Measure.Key
	return change(last, l.Next.Bars[st.Part].Measure.Key)
}

// TimeAfter returns the signature that the end of a line announces.
func (l *Line) TimeAfter() (score.Signature, bool) {
	if l.Next == nil || !l.Next.Bars[0].NewMeter {
		return score.Signature{}, false
	}
	return l.Next.Bars[0].Measure.Signature, true
}

// prefixOf sets out the signs before the music of a bar.
func (l *Line) prefixOf(b int) Prefix {
	p := Prefix{Clef: -1, Key: -1, Time: -1}
	if b == 0 {
		p.Clef = clefLead
		room := drumRoom
		for i := range l.s.Staves {
			if l.ClefIn(0, i).Sign != 'P' {
				room = ClefRoom
			}
		}
		p.Width = clefLead + room + 20
	}
	keys, signature := pen.Unit(0), pen.Unit(0)
	for i := range l.s.Staves {
		keys = max(keys, l.KeyBefore(b, i).Width())
		if bar := &l.Rows[b].Bars[l.s.Staves[i].Part]; bar.NewMeter {
			signature = max(signature, TimeWidth(bar.Measure.Signature))
		}
	}
	p.add(keys, signature, timeTail)
	return p
}

// suffix is the room after the last barline for what the line's end announces.
func (l *Line) suffix() Prefix {
	p := Prefix{Clef: -1, Key: -1, Time: -1}
	keys, signature := pen.Unit(0), pen.Unit(0)
	for i := range l.s.Staves {
		keys = max(keys, l.KeyAfter(i).Width())
	}
	if s, ok := l.TimeAfter(); ok {
		signature = TimeWidth(s)
	}
	p.add(keys, signature, 25)
	return p
}

// add makes room for signatures as wide as given; 0 for none.
func (p *Prefix) add(keys, signature, tail pen.Unit) {
	if keys > 0 {
		p.Key = p.Width + KeyLead
		p.Width += keys
	}
	if signature > 0 {
		p.Time = p.Width + timeLead
		p.Width += timeLead + signature + tail
	}
}

// TimeWidth is how wide a time signature is.
func TimeWidth(s score.Signature) pen.Unit { return pen.Unit(sheet.SignatureWidth(s)) }
