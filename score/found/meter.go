package found

import (
	"strconv"
	"strings"

	"tieover/score/beat"
	"tieover/score/find"
	"tieover/score/heard"
)

// Limits of a spec's meter.
const (
	mostCount = 64
	finest    = 128 // note value
)

// mostMeterBars bounds the bars that are counted out to say where things are.
const mostMeterBars = 1 << 20

// BarLength returns how long a bar of a signature such as 5/4, 3+2+2/8 or 2/4+3/8
// lasts; ok is false when a spec cannot say it.
func BarLength(meter string) (length beat.Span, ok bool) {
	beats, ok := parseBeats(meter)
	for _, b := range beats {
		length = length.Add(b)
	}
	return length, ok
}

// Bars counts out bars of a meter as long as the list lasts; nil if there are
// too many.
func Bars(meter string, l *find.List) *heard.Part {
	length, ok := BarLength(meter)
	if !ok {
		return nil
	}
	beats, _ := parseBeats(meter)
	end := l.Pulse.Span().Times(l.End)
	var part heard.Part
	for n, at := 1, (beat.Span{}); at.Cmp(end) < 0; n++ {
		if n > mostMeterBars {
			return nil
		}
		part.Bars = append(part.Bars, heard.Bar{Number: strconv.Itoa(n), Pass: 1, Start: at, Length: length, Beats: beats, Meter: meter})
		at = at.Add(length)
	}
	return &part
}

// parseBeats lists the beats of a bar: its groups where the meter names them, else
// its units. ok is false when a spec cannot say the meter.
func parseBeats(meter string) (beats []beat.Span, ok bool) {
	var counts []int64 // before their unit
	sum := int64(0)
	for _, word := range strings.Split(meter, "+") {
		top, bottom, slashed := strings.Cut(word, "/")
		n, err := strconv.ParseInt(top, 10, 64)
		if sum += n; err != nil || n < 1 || sum > mostCount {
			return nil, false
		}
		counts = append(counts, n)
		if !slashed {
			continue
		}
		unit, err := strconv.ParseInt(bottom, 10, 64)
		if err != nil || unit < 1 || unit > finest || unit&(unit-1) != 0 {
			return nil, false
		}
		for _, n := range counts {
			if len(counts) > 1 {
				beats = append(beats, beat.Of(n, unit))
				continue
			}
			for range n {
				beats = append(beats, beat.Of(1, unit))
			}
		}
		counts, sum = nil, 0
	}
	return beats, len(counts) == 0
}
