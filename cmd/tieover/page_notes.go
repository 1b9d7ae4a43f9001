package main

import (
	"fmt"
	"slices"

	"tieover/export/engraving"
	"tieover/export/page"
	"tieover/layout"
	"tieover/layout/edit"
	"tieover/layout/sheet"
	"tieover/score"
)

// A page shows the notes of a section in two sizes: for wide windows with lines
// of 14,000 hundredths of a staff space, for phones of 5,500.
const (
	wideLine   = 14_000
	narrowLine = 5_500
)

// mostPageBars is how many bars, over all staves, a page shows the notes of: all
// of it is held in memory, here and in the browser.
const mostPageBars = 600

// pageNotes draws the notes of each section: of all players, of each, and the
// composite.
func pageNotes(p *score.Piece, o layout.Options) []page.SectionNotes {
	none := func(reason string) []page.SectionNotes {
		return slices.Repeat([]page.SectionNotes{{Stop: reason}}, len(p.Sections))
	}
	o.Partner, o.Edition, o.Barring = "", sheet.Study, layout.Barring{} // the combs stand in the section's bars too
	whole, problems := layout.Lay(p, o)
	if len(problems) > 0 {
		return none("No notes are shown: " + problems[0].Text + ".")
	}
	composite, problems := layout.LayComposite(p, o, layout.Composite{})
	if len(problems) > 0 {
		composite = nil
	}
	var all []page.SectionNotes
	for _, s := range p.Sections {
		all = append(all, sectionNotes(whole, composite, s.FirstBar, s.BarCount()))
	}
	return all
}

// sectionNotes draws so many bars from one on, as far as a page shows them.
func sectionNotes(whole, composite *sheet.Sheet, first, bars int) (n page.SectionNotes) {
	staves := 0
	for i := range whole.Parts {
		staves += len(whole.Parts[i].Staves)
	}
	shown := min(bars, max(1, mostPageBars/staves))
	if shown < bars {
		n.Stop = fmt.Sprintf("The notes stop after %d of %d bars; score.html and score.musicxml have all.", shown, bars)
	}
	add := func(who string, s *sheet.Sheet, parts []string) {
		if s == nil {
			return
		}
		if cut, problems := edit.Excerpt(s, first, first+shown-1, parts); len(problems) == 0 {
			n.Choices = append(n.Choices, page.Notes{Who: who, Wide: inline(cut, wideLine), Narrow: inline(cut, narrowLine)})
		}
	}
	add("all", whole, nil)
	if len(whole.Parts) > 1 {
		for i := range whole.Parts {
			add(whole.Parts[i].Name, whole, []string{whole.Parts[i].Name})
		}
		add("composite", composite, nil)
	}
	return n
}

// inline draws a sheet as SVG for HTML.
func inline(s *sheet.Sheet, width int) (all []string) {
	for sys := range engraving.Systems(s, engraving.Options{Width: width}) {
		all = append(all, engraving.DefaultPaper.Figure(sys))
	}
	return all
}
