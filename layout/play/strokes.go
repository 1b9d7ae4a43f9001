package play

import (
	"slices"

	"tieover/score"
	"tieover/score/beat"
)

// wholeTone is a major second in semitones.
const wholeTone = 2

// strokes yields an attack: as it is, or, where it is rolled, as strokes of a
// 32nd that fill it, the last of what is left. A trill's highest key is struck in
// turn with that a major second above, while the keys below it are held; drums
// and the highest of all keys have none to turn to and roll.
func (f *Performance) strokes(e *Event, touch score.Touch, yield func(*Event) bool) bool {
	e.Lasts = 0
	if !touch.Has(score.Rolled) {
		return yield(e)
	}
	trills := touch.Has(score.Trill) && !e.Drums && slices.Max(e.Keys)+wholeTone <= 127
	end, one := e.At+e.Length, *e
	one.Keys = slices.Clone(e.Keys)
	if trills {
		slices.Sort(one.Keys)
		top := len(one.Keys) - 1
		held := one
		held.Keys, held.Inner, one.Keys = one.Keys[:top], true, one.Keys[top:]
		if top > 0 && !yield(&held) {
			return false
		}
	}
	one.Lasts = e.Length
	step := beat.Time(f.Grid) / 32 // whole: the grid of a piece with rolls has 32nds
	for k := 0; one.At < end; k++ {
		one.Length = min(step, end-one.At)
		if !yield(&one) {
			return false
		}
		one.At, one.Lasts, one.Inner = one.At+step, 0, true
		if trills {
			one.Keys[0] += wholeTone * (1 - 2*(k%2))
		}
	}
	return true
}

// follow yields the attack that is held back, cut off where the grace notes of the
// next one begin, then these: each a 32nd, but all together at most half of the time
// from attack to attack, in whole ticks. Those of the first attack have the count-in
// alone before them.
func (f *Performance) follow(held, next *sounding, yield func(*Event) bool) bool {
	from := beat.Time(0)
	if held.begun {
		from = held.At
	}
	n := beat.Time(len(next.graces))
	first := next.At
	each := beat.Time(0)
	if n > 0 {
		each = min(beat.Time(f.Grid)/32, (next.At-from)/2/n)
		first -= n * each
	}
	if held.begun {
		held.Length = min(held.Length, first-held.At)
		if !f.strokes(&held.Event, held.touch, yield) {
			return false
		}
	}
	for i, keys := range next.graces {
		e := next.Event
		e.At, e.Length, e.Keys, e.Velocity, e.Inner = first+beat.Time(i)*each, each, keys, next.soft, true
		if each > 0 && !yield(&e) {
			return false
		}
	}
	return true
}
