package main

import (
	"io"
	"strings"

	"tieover/export/chart"
	"tieover/export/page"
	"tieover/layout"
	"tieover/score"
)

// chartColumns is how wide the chart of a page is set: on paper, as wide as its
// letters can be read.
const chartColumns = 100

// writePage writes the page of a piece, with a chart of each section. A page with
// a version is served, and reloads itself.
func writePage(w io.Writer, p *score.Piece, version string, how layout.Options) error {
	if err := page.Fits(p); err != nil {
		return err
	}
	o := page.Options{Version: version, Notes: pageNotes(p, how)}
	for _, s := range p.Sections {
		var text strings.Builder
		opt := chart.Options{Width: chartColumns, From: s.FirstBar, To: s.FirstBar + s.BarCount() - 1}
		if err := chart.Write(&text, p, opt); err != nil {
			return err
		}
		o.Charts = append(o.Charts, text.String())
	}
	return page.Write(w, p, o)
}
