package chart

import (
	"slices"

	"tieover/layout/rows"
	"tieover/score/beat"
)

// scale turns times into columns. On an exact scale every step of the chart
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

// widest is the width of the longest bar of a chart.
func (s scale) widest(ch *rows.Chart) int { return s.bar(slices.Max(ch.BarLengths())) }

// newScale chooses the scale for a chart. apart is the least distance of two
// pulses of a layer in columns, sign the width of the widest composite sign,
// room the columns that a row has.
func newScale(ch *rows.Chart, apart, sign, room int) scale {
	step := ch.Step()
	columns := beat.Time(1)
	if sign > 1 {
		columns = beat.Time(sign + 1)
	}
	finest := beat.Time(0)
	pad := 0
	for _, i := range ch.Layers {
		f := ch.Finest(i)
		columns = max(columns, (beat.Time(apart)*step+f-1)/f)
		if finest == 0 || f < finest {
			finest = f
		}
	}
	for _, i := range ch.Layers {
		if ch.Phase(i)*columns < 2*step { // the last cell may leave no room for a tie
			pad = 1
		}
	}
	exact := scale{true, columns, step, pad}
	loose := looseScale(ch, beat.Time(apart), finest, room)
	if long := ch.LongestBeat(); exact.col(long) > room-4 && loose.col(long) < exact.col(long) {
		return loose
	}
	return exact
}

// looseScale gives the longest beat the width, up to double the least, in which
// the rows come out most even: a row whose pulses get 2 and 3 columns by turns
// limps, one of 4 and 5 hardly. A bar that fits on a row still does.
func looseScale(ch *rows.Chart, apart, finest beat.Time, room int) scale {
	long := ch.LongestBeat()
	least := (apart*long + finest - 1) / finest
	fits := func(s scale) bool { return int(s.num) <= room-4 && s.widest(ch) < room }
	best := scale{false, least, long, 1}
	must := fits(best)
	for columns := least + 1; columns <= 2*least; columns++ {
		s := scale{false, columns, long, 1}
		if s.limps(ch) < best.limps(ch) && (fits(s) || !must && int(columns) <= room-4) {
			best = s
		}
	}
	return best
}

// limps measures how uneven the rows are: the share of a pulse, in thousandths,
// that one column is, added up for all layers whose pulses are not alike.
func (s scale) limps(ch *rows.Chart) int {
	sum := 0
	for _, i := range ch.Layers {
		if f := ch.Finest(i); f*s.num%s.den != 0 {
			sum += 1000 / s.col(f)
		}
	}
	return sum
}
