package main

import (
	"fmt"
	"html/template"
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

// addNotes draws the notes of each section: of everybody, of each player, and the
// composite.
func addNotes(all []page.Beside, p *score.Piece, o layout.Options) {
	o.Partner, o.Edition, o.Barring = "", sheet.Study, layout.Barring{} // the combs are drawn in the section's bars too
	for _, width := range []int{wideLine, narrowLine} {
		o.Line = width
		whole, problems := layout.Lay(p, o)
		if len(problems) > 0 {
			for i := range all {
				all[i].NotesStop = "No notes are shown: " + problems[0].Text + "."
			}
			return
		}
		composite, problems := layout.LayComposite(p, o, layout.Composite{})
		if len(problems) > 0 {
			composite = nil
		}
		for i, s := range p.Sections {
			addSectionNotes(&all[i], width, whole, composite, s)
		}
	}
}

// addSectionNotes draws the bars of a section in one size, as far as a page shows them.
func addSectionNotes(to *page.Beside, width int, whole, composite *sheet.Sheet, s *score.Section) {
	bars, first := s.BarCount(), s.FirstNumber()
	staves := 0
	for i := range whole.Parts {
		staves += len(whole.Parts[i].Staves)
	}
	shown := min(bars, max(1, mostPageBars/staves))
	if shown < bars {
		to.NotesStop = fmt.Sprintf("The notes stop after %d of %d bars; score.html and score.musicxml have all.", shown, bars)
	}
	last := s.FirstBar + shown - 1
	add := func(who string, s *sheet.Sheet, parts []string) {
		cut, problems := edit.Excerpt(s, first, last, parts)
		if len(problems) > 0 {
			return
		}
		i := slices.IndexFunc(to.Notes, func(n page.Notes) bool { return n.Who == who })
		if i < 0 {
			i = len(to.Notes)
			to.Notes = append(to.Notes, page.Notes{Who: who})
		}
		to.Notes[i].Systems = append(to.Notes[i].Systems, inline(cut, width)...)
	}
	add("all", whole, nil)
	if len(whole.Parts) < 2 {
		return
	}
	for i := range whole.Parts {
		add(whole.Parts[i].Name, whole, []string{whole.Parts[i].Name})
	}
	if composite != nil {
		add("composite", composite, nil)
	}
}

// inline draws a sheet as SVG for HTML.
func inline(s *sheet.Sheet, width int) (all []page.NoteSystem) {
	size := "wide"
	if width == narrowLine {
		size = "narrow"
	}
	for sys := range engraving.Systems(s, engraving.Options{Width: width}) {
		all = append(all, page.NoteSystem{Size: size, SVG: template.HTML(engraving.DefaultPaper.Figure(sys))})
	}
	return all
}
