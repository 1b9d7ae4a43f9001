package chart

import (
	"tieover/layout/strip"
	"tieover/score/beat"
)

// scale turns times into columns. On an exact scale every step of the strip
// has the same whole number of columns, so what stands in one column sounds
// together. Where a single beat on such a scale would be wider than the row,
// the scale is loose: every row keeps its pulses apart, barlines stand under
// barlines, but columns in between are rounded down.
type scale struct {
	exact    bool
	num, den beat.Time // columns = floor(time·num/den)
	pad      int       // blank columns before every barline
}

func (s scale) col(t beat.Time) int { return int(t * s.num / s.den) }

func (s scale) bar(length beat.Time) int { return int((length*s.num+s.den-1)/s.den) + s.pad }

// newScale chooses the scale for a strip. apart is the least distance of two
// pulses of a layer in columns, sign the width of the widest composite sign,
// room the columns that a row has.
func newScale(st *strip.Strip, apart, sign, room int) scale {
	step := st.Step()
	columns := beat.Time(1)
	if sign > 1 {
		columns = beat.Time(sign + 1)
	}
	finest := beat.Time(0)
	pad := 0
	for _, i := range st.Layers {
		f := st.Finest(i)
		columns = max(columns, (beat.Time(apart)*step+f-1)/f)
		if finest == 0 || f < finest {
			finest = f
		}
	}
	for _, i := range st.Layers {
		if st.Phase(i)*columns < 2*step { // the last cell may leave no room for a tie
			pad = 1
		}
	}
	exact := scale{true, columns, step, pad}
	loose := scale{false, beat.Time(apart), finest, 1}
	if long := st.LongestBeat(); exact.col(long) > room-4 && loose.col(long) < exact.col(long) {
		return loose
	}
	return exact
}
