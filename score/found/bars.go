package found

import (
	"fmt"
	"slices"
	"strings"

	"tieover/score/beat"
	"tieover/score/heard"
)

// Change is a meter from one bar on, as a spec says it: "5/4", or "[4/4, 3/4]"
// for bars by turns.
type Change struct {
	Bar   int       // from 1
	At    beat.Span // when it begins
	Meter string
}

// Bounds of the meters that are taken from a score.
const (
	longestRotation = 16
	mostChanges     = 1024
)

// Meters returns the meters of bars as a spec has them; the first change is the meter of
// the first bar. A bar that is shorter or longer than its signature, as a pickup is, gets a
// meter of its own length. Where all bars to the end repeat in turn, at least twice, they
// are one change. The error is a bar that no meter of a spec fits, or too many changes.
func Meters(bars []heard.Bar) ([]Change, error) {
	signs := make([]string, len(bars))
	for i, bar := range bars {
		sign, ok := signature(bar)
		if !ok {
			return nil, fmt.Errorf("bar %s lasts %v, which no meter of a spec does", bar.Number, bar.Length)
		}
		signs[i] = sign
	}
	var all []Change
	for i := 0; i < len(bars); {
		if len(all) == mostChanges {
			return nil, fmt.Errorf("the meter changes more than %d times", mostChanges)
		}
		change := Change{i + 1, bars[i].Start, signs[i]}
		if turns := barRotation(signs[i:]); turns > 1 {
			change.Meter = "[" + strings.Join(signs[i:i+turns], ", ") + "]"
			return append(all, change), nil
		}
		all = append(all, change)
		for i++; i < len(bars) && signs[i] == signs[i-1]; i++ {
		}
	}
	return all, nil
}

// barRotation returns after how many bars all signatures repeat, 0 if they do not do so
// twice in full.
func barRotation(signs []string) int {
	for n := 1; n <= min(longestRotation, len(signs)/2); n++ {
		i := n
		for i < len(signs) && signs[i] == signs[i-n] {
			i++
		}
		if i == len(signs) {
			return n
		}
	}
	return 0
}

// signature returns a bar's signature if a spec can have it and the bar is as long, else
// the plainest one of its length. ok is false when there is none.
func signature(bar heard.Bar) (text string, ok bool) {
	if length, ok := BarLength(bar.Meter); ok && length == bar.Length {
		return bar.Meter, true
	}
	den := bar.Length.Den()
	unit := max(den, 4)
	count := bar.Length.Num() * (unit / den)
	return fmt.Sprintf("%d/%d", count, unit), count >= 1 && count <= mostCount && den <= finest && den&(den-1) == 0
}

// splitPickup returns the plan without the bar that is its pickup, and the pulses of that; 0
// where a spec cannot have the pickup, which then is a bar with a meter of its own.
func (p Plan) splitPickup(pulse beat.Pulse) (plan Plan, pulses int64) {
	n, whole := p.Pickup.Over(pulse.Span()).IsWhole()
	if p.Pickup.Sign() == 0 || !whole || len(p.Changes) == 0 {
		p.Pickup = beat.Span{}
		return p, 0
	}
	first := p.Changes[0]
	p.Meter, p.Bar = first.Meter, beat.Span{}
	p.Changes = slices.Clone(p.Changes[1:])
	if length, ok := BarLength(first.Meter); ok && len(p.Changes) == 0 {
		p.Bar = length
	}
	for i := range p.Changes {
		p.Changes[i].Bar--
	}
	return p, n
}
