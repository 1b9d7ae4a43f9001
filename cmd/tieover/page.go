package main

import (
	"io"
	"strings"

	"tieover/export/chart"
	"tieover/export/page"
	"tieover/score"
)

// chartColumns is how wide the chart on a page's printed sheet is set, and
// chartBars how many bars of a section it is given to choose from.
const (
	chartColumns = 100
	chartBars    = 64
)

// writePage writes the page of a piece, with a chart of each section for the
// printed sheet. A page with a version is served, and reloads itself.
func writePage(w io.Writer, p *score.Piece, version string) error {
	if err := page.Fits(p); err != nil {
		return err
	}
	o := page.Options{Version: version}
	for _, s := range p.Sections {
		bars := min(s.BarCount(), chartBars)
		var text strings.Builder
		opt := chart.Options{Width: chartColumns, Bare: true, From: s.FirstBar, To: s.FirstBar + bars - 1}
		if err := chart.Write(&text, p, opt); err != nil {
			return err
		}
		o.Charts = append(o.Charts, text.String())
	}
	return page.Write(w, p, o)
}
