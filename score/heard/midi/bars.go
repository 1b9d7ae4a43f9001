package midi

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"

	"tieover/score/beat"
	"tieover/score/heard"
)

// maxBars bounds the bars of a file.
const maxBars = 1_000_000

// meterAt is a time signature and when it begins.
type meterAt struct {
	at          int64 // ticks
	count, unit int   // 5 and 4 of 5/4
}

// bars makes bars until the end of the music. Until the first signature they
// are of 4/4 (Standard MIDI Files 1.0, RP-001); one that stands inside a bar
// cuts it short.
func (r *midiReading) bars(end beat.Span) ([]heard.Bar, error) {
	slices.SortStableFunc(r.meter, func(a, b meterAt) int { return cmp.Compare(a.at, b.at) })
	var bars []heard.Bar
	now, meter := beat.Span{}, meterAt{0, 4, 4}
	next := r.meter
	for now.Cmp(end) < 0 {
		for len(next) > 0 && beat.Of(next[0].at, r.whole).Cmp(now) <= 0 {
			meter, next = next[0], next[1:]
		}
		if len(bars) == maxBars {
			return nil, fmt.Errorf("the MIDI file has more than %d bars", maxBars)
		}
		length := beat.Of(int64(meter.count), int64(meter.unit))
		if len(next) > 0 {
			if room := beat.Of(next[0].at, r.whole).Sub(now); room.Cmp(length) < 0 {
				length = room
			}
		}
		bars = append(bars, heard.Bar{
			Number: strconv.Itoa(len(bars) + 1), Pass: 1, Start: now, Length: length,
			Beats: heard.Beats([]int{meter.count}, meter.unit), Meter: fmt.Sprintf("%d/%d", meter.count, meter.unit),
		})
		now = now.Add(length)
	}
	asPickup(bars)
	return bars, nil
}

// asPickup takes a first bar that is shorter than those after it for the end of one of
// theirs, numbered 0, where no later bar has its meter: no MIDI file says what a pickup
// is.
func asPickup(bars []heard.Bar) {
	if len(bars) < 3 {
		return
	}
	first, next := &bars[0], bars[1]
	cut := first.Meter == next.Meter // by a signature inside it
	if first.Length.Cmp(next.Length) >= 0 || next.Meter != bars[2].Meter || next.Length != bars[2].Length ||
		!cut && slices.ContainsFunc(bars[1:], func(b heard.Bar) bool { return b.Meter == first.Meter }) {
		return
	}
	first.Skipped, first.Meter, first.Beats = next.Length.Sub(first.Length), next.Meter, next.Beats
	for i := range bars {
		bars[i].Number = strconv.Itoa(i)
	}
}
