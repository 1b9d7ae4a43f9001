package engraving

import (
	"fmt"
	"io"

	"tieover/layout/sheet"
)

// Style is CSS for figures and pages in an HTML file: they take the width that
// there is on a screen, and their own on paper.
const Style = `svg.music,svg.page{display:block;max-width:100%;height:auto;margin:0 auto}
svg.music{break-inside:avoid}
@media print{svg.page{break-after:page;max-width:none}svg.page:last-child{break-after:auto}}
`

// WriteHTML writes a sheet as an HTML file that shows its pages one below the
// other and prints them, each on one page of the paper.
func WriteHTML(w io.Writer, s *sheet.Sheet, p Paper) error {
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
`, escaped(titleOf(s)), Style, hundredths(p.Width), hundredths(p.Height))
	for page := range Pages(s, p) {
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

// titleOf names the sheet and, where it is a part, its player.
func titleOf(s *sheet.Sheet) string {
	if player := onlyPlayer(s); player != "" && player != s.Title {
		return s.Title + ", " + player
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
