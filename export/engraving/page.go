package engraving

import (
	"fmt"
	"iter"

	"tieover/export/engraving/pen"
	"tieover/layout/sheet"
)

// Paper is the sheet of paper that pages are drawn on. Lengths are in 1/100 mm.
type Paper struct {
	Width, Height int
	Margin        int
	Staff         int // height of a staff of five lines
}

// A4 and Letter are the sizes of paper: ISO 216, and 8.5 by 11 inches.
var (
	A4     = [2]int{21000, 29700}
	Letter = [2]int{21590, 27940}
)

// DefaultPaper is A4 with margins of 15 mm and a staff of 7 mm.
var DefaultPaper = Paper{A4[0], A4[1], 1500, 700}

// units converts a length of the paper.
func (p Paper) units(length int) pen.Unit { return pen.Unit(length * 4 * int(pen.Space) / p.Staff) }

// line is the width between the margins.
func (p Paper) line() pen.Unit { return p.units(p.Width - 2*p.Margin) }

// LineWidth is the width between the margins in 1/100 space, for Options.
func (p Paper) LineWidth() int { return int(p.line()) }

// millimeters writes a length for SVG.
func (p Paper) millimeters(u pen.Unit) string {
	n := int(u) * p.Staff / (4 * int(pen.Space))
	return hundredths(n)
}

// svg wraps elements in a picture of its own.
func (p Paper) svg(w, h pen.Unit, class, label string, body []byte) []byte {
	var k pen.Ink
	k.Put(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 `)
	k.Number(w)
	k.Put(" ")
	k.Number(h)
	k.Put(`" width="` + p.millimeters(w) + `" height="` + p.millimeters(h) + `" fill="currentColor" font-family="serif"`)
	if class != "" {
		k.Put(` class="` + class + `"`)
	}
	k.Put(` role="img" aria-label="` + pen.Escaped(label) + "\">\n")
	k = append(k, body...)
	k.Put("</svg>\n")
	return k
}

// Figure returns one system as an SVG for use in HTML: it takes the color of
// the text around it and stands as wide as on the paper.
func (p Paper) Figure(s *System) string {
	return string(p.svg(pen.Unit(s.Width), pen.Unit(s.Height), "music", s.label(), s.Body))
}

// Picture returns one system as an SVG file of its own, black on white.
func (p Paper) Picture(s *System) string {
	const margin = 100
	w, h := pen.Unit(s.Width)+2*margin, pen.Unit(s.Height)+2*margin
	var k pen.Ink
	var ground pen.Path
	ground.Box(0, 0, w, h)
	k.Put(`<g color="#000">` + "\n" + `<path fill="#fff" d="`)
	k = append(k, ground...)
	k.Put("\"/>\n")
	k.Put(`<g fill="#000">` + "\n")
	k.Group(margin, margin, s.Body)
	k.Put("</g>\n</g>\n")
	return string(p.svg(w, h, "", s.label(), k))
}

// label says in words what a system shows, for those who cannot see it.
func (s *System) label() string {
	if s.Bars == 1 {
		return fmt.Sprintf("notation, bar %d", s.FirstBar)
	}
	return fmt.Sprintf("notation, bars %d to %d", s.FirstBar, s.FirstBar+s.Bars-1)
}

// Distances on a page.
const (
	systemGap   pen.Unit = 350 // least, between systems
	widestGap   pen.Unit = 900 // most, where a page is filled
	titleBlock  pen.Unit = 770
	creditStep  pen.Unit = 250
	titleStep   pen.Unit = 450 // between two lines of a title
	rightsBlock pen.Unit = 250
)

// pages draws a sheet on pages of paper, each an SVG. A page that is nearly full
// is filled by setting its systems farther apart.
func pages(s *sheet.Sheet, p Paper, smaller func(bar, percent int)) iter.Seq[string] {
	return func(yield func(string) bool) {
		pg := pager{sheet: s, paper: p, width: p.units(p.Width), height: p.units(p.Height), margin: p.units(p.Margin)}
		pg.title()
		for sys := range Systems(s, Options{Width: p.LineWidth(), Unnamed: len(s.Parts) == 1}) { // the title block names the only part
			if len(pg.systems) > 0 && (sys.NewPage || pg.used+pen.Unit(sys.Height) > pg.height-pg.margin) {
				if !yield(pg.close(false)) {
					return
				}
			}
			if sys.Percent < 100 && smaller != nil {
				smaller(sys.FirstBar, sys.Percent)
			}
			pg.systems = append(pg.systems, sys)
			pg.used += pen.Unit(sys.Height) + systemGap
		}
		yield(pg.close(true))
	}
}

// pager fills one page after another.
type pager struct {
	sheet                 *sheet.Sheet
	paper                 Paper
	width, height, margin pen.Unit
	number                int
	head                  pen.Ink // the title block
	start, used           pen.Unit
	systems               []*System
}

// title sets the title block of the first page.
func (pg *pager) title() {
	s, y := pg.sheet, pg.margin
	line := pg.width - 2*pg.margin
	first, second := titleLines(s.Title, line)
	pg.head.Text(pg.width/2, y+280, first, pen.TitleFace.Within(line, first))
	if second != "" {
		y += titleStep
		pg.head.Text(pg.width/2, y+280, second, pen.TitleFace.Within(line, second))
	}
	pg.head.Text(pg.width/2, y+560, s.Subtitle, pen.SubtitleFace.Within(line, s.Subtitle))
	h := titleBlock
	for _, name := range []string{s.Composer, s.Arranger} {
		if name != "" {
			pg.head.Text(pg.width-pg.margin, y+h, name, pen.CreditFace)
			h += creditStep
		}
	}
	if p := s.OnlyPlayer(); p != nil {
		pg.head.Text(pg.margin, y+titleBlock, p.Name, pen.PlayerFace)
		if key := p.Plays(); key != "" {
			pg.head.Text(pg.margin, y+titleBlock+creditStep, key, pen.PlayerFace)
			h = max(h, titleBlock+2*creditStep)
		}
	}
	if h == titleBlock {
		h += creditStep
	}
	pg.start = y + h
	if s.Title == "" && s.Subtitle == "" && h == titleBlock+creditStep && s.Composer == "" {
		pg.start = y
	}
	pg.used = pg.start
	pg.head.Text(pg.width/2, pg.height-pg.margin.Percent(60), s.Rights, pen.RightsFace)
}

// titleLines breaks a title that is wider than the page at the blank nearest its
// middle.
func titleLines(title string, room pen.Unit) (first, second string) {
	if pen.TitleFace.Width(title) <= room {
		return title, ""
	}
	best, at := pen.Unit(0), -1
	for i, r := range title {
		if r != ' ' {
			continue
		}
		if apart := pen.TitleFace.Width(title[:i]) - pen.TitleFace.Width(title[i+1:]); at < 0 || max(apart, -apart) < best {
			best, at = max(apart, -apart), i
		}
	}
	if at < 0 {
		return title, ""
	}
	return title[:at], title[at+1:]
}

// close draws the page at hand. Its systems move apart towards the bottom margin,
// those of the last page only if they fill most of it.
func (pg *pager) close(last bool) string {
	gap := systemGap
	if n := pen.Unit(len(pg.systems) - 1); n > 0 {
		free := pg.height - pg.margin - (pg.used - systemGap)
		if !last || free < (pg.height-2*pg.margin)/4 {
			gap = min(widestGap, systemGap+max(0, free/n))
		}
	}
	body := pg.head
	y := pg.start
	for _, sys := range pg.systems {
		body.Group(pg.margin, y, sys.Body)
		y += pen.Unit(sys.Height) + gap
	}
	pg.number++
	if pg.number > 1 {
		body.Text(pg.width/2, pg.margin.Percent(70), fmt.Sprint(pg.number), pen.RightsFace)
	}
	page := pg.paper.svg(pg.width, pg.height, "page", fmt.Sprintf("page %d", pg.number), body)
	pg.head, pg.systems, pg.start, pg.used = nil, nil, pg.margin, pg.margin
	return string(page)
}
