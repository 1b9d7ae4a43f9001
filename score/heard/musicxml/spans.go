package musicxml

import (
	"slices"

	"tieover/score/beat"
)

// barSpans holds how long each bar lasts in ticks of the final grid: one list
// for all parts, or one for each when their barlines do not coincide.
type barSpans [][]int64

func (s barSpans) part(i int) []int64 { return s[min(i, len(s)-1)] }

// barSpans finds the bars' lengths. A bar lasts as long as its meter says,
// whatever is in it, so that one wrong bar does not move all that follow; only
// bars that are not counted, bars without a meter, and the two halves of a bar
// that a repeat splits last as long as their content.
func (in *reading) barSpans(bars int) barSpans {
	for _, p := range in.parts {
		if slices.ContainsFunc(p.bars, func(b *readBar) bool { return b.own }) {
			var each barSpans
			for _, p := range in.parts {
				each = append(each, in.spansOf([]*readPart{p}, bars))
			}
			return each
		}
	}
	return barSpans{in.spansOf(in.parts, bars)}
}

func (in *reading) spansOf(parts []*readPart, bars int) []int64 {
	meter, fill := make([]int64, bars), make([]int64, bars)
	loose := make([]bool, bars)
	seam := make([]bool, bars) // a repeat ends here, or begins in the next bar
	for _, p := range parts {
		for i, bar := range p.bars {
			fill[i] = max(fill[i], bar.fill)
			meter[i] = max(meter[i], in.meterTicks(bar))
			loose[i] = loose[i] || bar.implicit || i == 0 && bar.isPickup()
			seam[i] = seam[i] || bar.form.backward || bar.form.endingOver
			if i > 0 && bar.form.forward {
				seam[i-1] = true
			}
		}
	}
	spans := make([]int64, bars)
	for i := range spans {
		spans[i] = meter[i]
		halves := func(a, b int) bool {
			return a >= 0 && b < bars && seam[a] && meter[a] == meter[b] && fill[a] > 0 && fill[b] > 0 && fill[a]+fill[b] == meter[a]
		}
		if meter[i] == 0 || loose[i] && fill[i] > 0 || halves(i, i+1) || halves(i-1, i) {
			spans[i] = fill[i]
		}
	}
	return spans
}

// meterTicks returns the length of the bar's meter, 0 when it has none.
func (in *reading) meterTicks(bar *readBar) int64 {
	return bar.meter.length.Num() * (in.grid / bar.meter.length.Den())
}

// settleGrid makes the grid hold the meters too, as it holds the notes, and moves all
// bars to it.
func (in *reading) settleGrid() error {
	for _, p := range in.parts {
		for _, bar := range p.bars {
			finer, ok := beat.LCM(in.grid, bar.meter.length.Den())
			if !ok || finer > maxGrid {
				return failed(bar.line, "the meter %s has no common measure with the notes", bar.meter.text)
			}
			in.grid = finer
		}
	}
	for _, p := range in.parts {
		for _, bar := range p.bars {
			bar.rescale(in.grid)
		}
	}
	return nil
}
