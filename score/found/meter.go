package found

import (
	"strconv"
	"strings"

	"tieover/score/beat"
	"tieover/score/find"
	"tieover/score/heard"
)

// mostMeterBars bounds the bars that are counted out to say where things are.
const mostMeterBars = 1 << 20

// BarLength returns how long a bar of a signature such as 5/4 or 3+2+2/8 lasts;
// ok is false when the text is none.
func BarLength(meter string) (length beat.Span, ok bool) {
	length, ok = find.MeterLength(meter)
	return length, ok && length.Sign() > 0
}

// Bars counts out bars of a meter as long as the list lasts; nil if there are
// too many.
func Bars(meter string, l *find.List) *heard.Part {
	length, ok := BarLength(meter)
	if !ok {
		return nil
	}
	end := l.Pulse.Span().Times(l.End)
	var part heard.Part
	for n, at := 1, (beat.Span{}); at.Cmp(end) < 0; n++ {
		if n > mostMeterBars {
			return nil
		}
		part.Bars = append(part.Bars, heard.Bar{Number: strconv.Itoa(n), Pass: 1, Start: at, Length: length, Beats: beatsOf(meter), Meter: meter})
		at = at.Add(length)
	}
	return &part
}

// beatsOf lists the beats of a bar: its groups where the meter names them, else
// its units.
func beatsOf(meter string) []beat.Span {
	var beats []beat.Span
	var tops []int64
	for _, word := range strings.Split(meter, "+") {
		top, bottom, slashed := strings.Cut(word, "/")
		n, _ := strconv.ParseInt(top, 10, 64)
		tops = append(tops, n)
		if !slashed {
			continue
		}
		unit, _ := strconv.ParseInt(bottom, 10, 64)
		for _, n := range tops {
			if len(tops) > 1 {
				beats = append(beats, beat.Of(n, unit))
				continue
			}
			for range n {
				beats = append(beats, beat.Of(1, unit))
			}
		}
		tops = nil
	}
	return beats
}
