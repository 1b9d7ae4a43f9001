package page

import "html/template"

// Notes are a section's notes as drawn for the page, for one choice of what is
// shown: all players, one of them, or the composite.
type Notes struct {
	Who          string   // "all", a player, "composite"
	Wide, Narrow []string // inline SVG, a system each, for wide windows and for phones
}

// SectionNotes are all choices of a section. Its notes have data-at, the moment
// in the piece as a fraction of a whole note, and data-layer.
type SectionNotes struct {
	Choices []Notes
	Stop    string // why notes end before the section does, or there are none; "" if all are there
}

// shownNotes is what the template takes of them.
type shownNotes struct {
	Who     string
	Systems []shownNoteSystem
}

type shownNoteSystem struct {
	Size string
	SVG  template.HTML
}

// shown sorts the systems of a choice: those for wide windows, then those for
// phones.
func (n Notes) shown() shownNotes {
	out := shownNotes{Who: n.Who}
	for _, size := range []struct {
		name    string
		systems []string
	}{{"wide", n.Wide}, {"narrow", n.Narrow}} {
		for _, svg := range size.systems {
			out.Systems = append(out.Systems, shownNoteSystem{size.name, template.HTML(svg)})
		}
	}
	return out
}

// choices are whose notes can be shown, over all sections, in order of first
// appearance.
func (o Options) choices() (names []string) {
	known := map[string]bool{}
	for _, s := range o.Notes {
		for _, n := range s.Choices {
			if !known[n.Who] {
				known[n.Who] = true
				names = append(names, n.Who)
			}
		}
	}
	return names
}
