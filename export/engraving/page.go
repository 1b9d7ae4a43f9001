package engraving

import (
	"fmt"
	"iter"

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
func (p Paper) units(length int) unit { return unit(length * 4 * int(space) / p.Staff) }

// line is the width between the margins.
func (p Paper) line() unit { return p.units(p.Width - 2*p.Margin) }

// LineWidth is the width between the margins in 1/100 space, for Options.
func (p Paper) LineWidth() int { return int(p.line()) }

// millimeters writes a length for SVG.
func (p Paper) millimeters(u unit) string {
	n := int(u) * p.Staff / (4 * int(space))
	return hundredths(n)
}

// svg wraps elements in a picture of its own.
func (p Paper) svg(w, h unit, class, label string, body []byte) []byte {
	var k ink
	k.put(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 `)
	k.number(w)
	k.put(" ")
	k.number(h)
	k.put(`" width="` + p.millimeters(w) + `" height="` + p.millimeters(h) + `" fill="currentColor" font-family="serif"`)
	if class != "" {
		k.put(` class="` + class + `"`)
	}
	k.put(` role="img" aria-label="` + escaped(label) + "\">\n")
	k = append(k, body...)
	k.put("</svg>\n")
	return k
}

// Figure returns one system as an SVG for use in HTML: it takes the color of
// the text around it and stands as wide as on the paper.
func (p Paper) Figure(s *System) string {
	return string(p.svg(unit(s.Width), unit(s.Height), "music", s.label(), s.Body))
}

// Picture returns one system as an SVG file of its own, black on white.
func (p Paper) Picture(s *System) string {
	const margin = 100
	w, h := unit(s.Width)+2*margin, unit(s.Height)+2*margin
	var k ink
	var ground path
	ground.box(0, 0, w, h)
	k.put(`<g color="#000">` + "\n" + `<path fill="#fff" d="`)
	k = append(k, ground...)
	k.put("\"/>\n")
	k.put(`<g fill="#000">` + "\n")
	k.group(margin, margin, s.Body)
	k.put("</g>\n</g>\n")
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
	systemGap   unit = 350 // least, between systems
	widestGap   unit = 900 // most, where a page is filled
	titleBlock  unit = 770
	creditStep  unit = 250
	titleStep   unit = 450 // between two lines of a title
	rightsBlock unit = 250
)

// pages draws a sheet on pages of paper, each an SVG. A page that is nearly full
// is filled by setting its systems farther apart.
func pages(s *sheet.Sheet, p Paper, smaller func(bar, percent int)) iter.Seq[string] {
	return func(yield func(string) bool) {
		pg := pager{sheet: s, paper: p, width: p.units(p.Width), height: p.units(p.Height), margin: p.units(p.Margin)}
		pg.title()
		for sys := range Systems(s, Options{Width: p.LineWidth(), Unnamed: len(s.Parts) == 1}) { // the title block names the only part
			if len(pg.systems) > 0 && (sys.NewPage || pg.used+unit(sys.Height) > pg.height-pg.margin) {
				if !yield(pg.close(false)) {
					return
				}
			}
			if sys.Percent < 100 && smaller != nil {
				smaller(sys.FirstBar, sys.Percent)
			}
			pg.systems = append(pg.systems, sys)
			pg.used += unit(sys.Height) + systemGap
		}
		yield(pg.close(true))
	}
}

// pager fills one page after another.
type pager struct {
	sheet                 *sheet.Sheet
	paper                 Paper
	width, height, margin unit
	number                int
	head                  ink // the title block
	start, used           unit
	systems               []*System
}

// title sets the title block of the first page.
func (pg *pager) title() {
	s, y := pg.sheet, pg.margin
	line := pg.width - 2*pg.margin
	first, second := titleLines(s.Title, line)
	pg.head.text(pg.width/2, y+280, first, titleFace.within(line, first))
	if second != "" {
		y += titleStep
		pg.head.text(pg.width/2, y+280, second, titleFace.within(line, second))
	}
	pg.head.text(pg.width/2, y+560, s.Subtitle, subtitleFace.within(line, s.Subtitle))
	h := titleBlock
	for _, name := range []string{s.Composer, s.Arranger} {
		if name != "" {
			pg.head.text(pg.width-pg.margin, y+h, name, creditFace)
			h += creditStep
		}
	}
	if p := s.OnlyPlayer(); p != nil {
		pg.head.text(pg.margin, y+titleBlock, p.Name, playerFace)
		if key := p.Plays(); key != "" {
			pg.head.text(pg.margin, y+titleBlock+creditStep, key, playerFace)
			h = max(h, titleBlock+creditStep)
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
	pg.head.text(pg.width/2, pg.height-pg.margin.percent(60), s.Rights, rightsFace)
}

// titleLines breaks a title that is wider than the page at the blank nearest its
// middle.
func titleLines(title string, room unit) (first, second string) {
	if titleFace.width(title) <= room {
		return title, ""
	}
	best, at := unit(0), -1
	for i, r := range title {
		if r != ' ' {
			continue
		}
		if apart := titleFace.width(title[:i]) - titleFace.width(title[i+1:]); at < 0 || max(apart, -apart) < best {
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
	if n := unit(len(pg.systems) - 1); n > 0 {
		free := pg.height - pg.margin - (pg.used - systemGap)
		if !last || free < (pg.height-2*pg.margin)/4 {
			gap = min(widestGap, systemGap+max(0, free/n))
		}
	}
	body := pg.head
	y := pg.start
	for _, sys := range pg.systems {
		body.group(pg.margin, y, sys.Body)
		y += unit(sys.Height) + gap
	}
	pg.number++
	if pg.number > 1 {
		body.text(pg.width/2, pg.margin.percent(70), fmt.Sprint(pg.number), rightsFace)
	}
	page := pg.paper.svg(pg.width, pg.height, "page", fmt.Sprintf("page %d", pg.number), body)
	pg.head, pg.systems, pg.start, pg.used = nil, nil, pg.margin, pg.margin
	return string(page)
}
