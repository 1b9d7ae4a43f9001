package page

import "html/template"

// Notes are a section's notes as drawn for the page, for one choice of what is
// shown: everybody, one player, or the composite. They have data-at, the moment
// in the piece as a fraction of a whole note, and data-layer.
type Notes struct {
	Who     string // "all", a player, "composite"
	Systems []NoteSystem
}

// NoteSystem is one line of notes.
type NoteSystem struct {
	Size string        // "wide" for wide windows, "narrow" for phones
	SVG  template.HTML // inline
}

// choices are whose notes can be shown, over all sections, in order of first
// appearance.
func (o Options) choices() (names []string) {
	known := map[string]bool{}
	for _, s := range o.Sections {
		for _, n := range s.Notes {
			if !known[n.Who] {
				known[n.Who] = true
				names = append(names, n.Who)
			}
		}
	}
	return names
}
