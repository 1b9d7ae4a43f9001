package engraving

import (
	"fmt"
	"io"

	"tieover/export/engraving/pen"
	"tieover/layout/sheet"
)

// Style is CSS for figures and pages in an HTML file: they take the width that
// there is on a screen, and their own on paper.
const Style = `svg.music,svg.page{display:block;max-width:100%;height:auto;margin:0 auto}
svg.music{break-inside:avoid}
@media print{svg.page{break-after:page;max-width:none}svg.page:last-child{break-after:auto}}
`

// WriteHTML writes a sheet as an HTML file that shows its pages one below the
// other and prints them, each on one page of the paper. Smaller, which may be
// nil, is told of each system that had to be drawn smaller: its first bar,
// counted from 1, and the percentage.
func WriteHTML(w io.Writer, s *sheet.Sheet, p Paper, smaller func(bar, percent int)) error {
	if err := p.check(); err != nil {
		return err
	}
	_, err := fmt.Fprintf(w, `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>%s</title>
<style>
:root{color-scheme:light dark}
body{margin:0}
%s@page{size:%s %s;margin:0}
@media screen{svg.page{border-bottom:1px dotted}}
</style>
</head>
<body>
`, pen.Escaped(titleOf(s)), Style, hundredths(p.Width), hundredths(p.Height))
	for page := range pages(s, p, smaller) {
		if err == nil {
			_, err = io.WriteString(w, page)
		}
		if err != nil {
			return err
		}
	}
	_, err = io.WriteString(w, "</body>\n</html>\n")
	return err
}

// MostStaffBars is how many bars of a staff a usual build draws: some 30 MB.
const MostStaffBars = 20_000

// TooLong reports a sheet of more bars than a usual build draws.
type TooLong struct{ Bars int }

func (e TooLong) Error() string {
	return fmt.Sprintf("pages of notation: %d bars over all staves are more than %d; choose some with --bars or --layers, or ask with --only notation", e.Bars, MostStaffBars)
}

// Fits returns a TooLong if a sheet has more than MostStaffBars.
func Fits(s *sheet.Sheet) error {
	n := 0
	for i := range s.Parts {
		n += len(s.Parts[i].Staves)
	}
	if n *= s.Bars; n > MostStaffBars {
		return TooLong{n}
	}
	return nil
}

// titleOf names the sheet and, where it is a part, its player.
func titleOf(s *sheet.Sheet) string {
	if player := s.OnlyPlayer(); player != nil && player.Name != s.Title {
		return s.Title + ", " + player.Name
	}
	return s.Title
}

// hundredths writes a length in 1/100 mm.
func hundredths(n int) string { return fmt.Sprintf("%d.%02dmm", n/100, n%100) }

func (p Paper) check() error {
	switch {
	case p.Staff < 300 || p.Staff > 1200:
		return fmt.Errorf("staff height %s: between 3 and 12 mm are possible", hundredths(p.Staff))
	case p.Margin < 0 || p.Margin > 5000:
		return fmt.Errorf("margin %s: between 0 and 50 mm are possible", hundredths(p.Margin))
	}
	return nil
}
