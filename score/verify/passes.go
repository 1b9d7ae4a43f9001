package verify

import (
	"cmp"
	"slices"
	"strconv"

	"tieover/score"
	"tieover/score/beat"
	"tieover/score/heard"
)

// barsOf lists the bars that a pass plays of its section, in ticks of a grid.
func barsOf(p *score.Piece, pass score.Pass, grid beat.Grid) []bar {
	var all []bar
	s := p.Sections[pass.Section]
	finer := beat.Time(grid / s.Grid)
	for b := range s.Bars() {
		if b.Start >= pass.From {
			all = append(all, bar{strconv.Itoa(b.Number), pass.Time, (pass.At + b.Start) * finer, b.Length * finer})
		}
	}
	return all
}

// passBars lists the bars in which the part is written in a pass: those of the
// meter, or the score's own where a layer's cycles are bars. A score whose bars do
// not fill the pass was edited, and says nothing of it.
func (c *comparison) passBars(pass score.Pass) []bar {
	bars := barsOf(c.piece, pass, c.grid)
	last := bars[len(bars)-1]
	start := func(b heard.Bar, at beat.Time) int { return cmp.Compare(c.grid.Must(b.Start), at) }
	i, begins := slices.BinarySearchFunc(c.part.Bars, bars[0].start, start)
	j, _ := slices.BinarySearchFunc(c.part.Bars, last.end(), start)
	if !begins || i == j {
		return bars
	}
	own := heardBars(c.part.Bars[i:j], c.grid)
	if end := own[len(own)-1].end(); end <= last.start ||
		slices.EqualFunc(own, bars, func(a, b bar) bool { return a.start == b.start }) {
		return bars
	}
	return own
}

// heardBars puts bars of the score on a grid.
func heardBars(list []heard.Bar, grid beat.Grid) []bar {
	bars := make([]bar, len(list))
	for i, b := range list {
		bars[i] = bar{b.Shown(), b.Pass, grid.Must(b.Start), grid.Must(b.Length)}
	}
	return bars
}
