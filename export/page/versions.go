package page

import (
	"slices"

	"tieover/layout/play"
	"tieover/score"
	"tieover/score/beat"
)

// Versions is a section with loops in two versions, one cut and one whole.
type Versions struct {
	Section  *score.Section // the second versions after all other layers
	Twins    []score.Twin
	Cut      bool // the second versions are those that are cut
	Partings []Parting
	Chart    string
}

// Parting is a moment at which the versions of a loop part or meet.
type Parting struct {
	At        beat.Time // the section's
	Who, Does string    // "Marimba", "parts"
	Into      string    // how far the whole loop is; "" where that does not matter
}

// shownVersions is what the template takes of them.
type shownVersions struct {
	Systems  []shownSystem
	Partings []shownParting
	Chart    string
	Sheet    sheet
}

type shownParting struct {
	Parting
	Where []string // in each reading
	Time  string
}

// doubledView is a view with the second versions.
type doubledView struct {
	*view
	vs *Versions
}

// gatherVersions gathers the loops that have two versions, each second one under
// its first.
func gatherVersions(p *score.Piece, index int, vs *Versions, felt []Felt) *doubledView {
	var barred []Felt
	for _, f := range felt {
		if s, ok := vs.Section.Felt(f.Downbeat); ok {
			f.Section = s
			barred = append(barred, f)
		}
	}
	v := gatherSection(p, vs.Section, index, barred)
	v.drawn = nil
	for n, t := range vs.Twins {
		first, second := &v.rows[t.Of], &v.rows[t.Layer]
		second.letter = first.letter + "′"
		second.look = look{first.look.ink, dashes(len(v.rows)/inks + 1 + n/inks)}
		v.drawn = append(v.drawn, t.Of, t.Layer)
	}
	return &doubledView{v, vs}
}

// show draws all versions.
func (v *doubledView) show() *shownVersions {
	out := &shownVersions{Systems: v.drawAll(false), Chart: v.vs.Chart, Sheet: v.sheet([]string{v.vs.Chart})}
	for _, p := range v.vs.Partings {
		out.Partings = append(out.Partings, shownParting{p, v.compared(p.At), beat.InMinutes(v.s.Seconds(p.At))})
	}
	return out
}

// addVersions adds the second versions of the sections that have any to the data, and
// says of every layer which version it is.
func addVersions(d *data, p *score.Piece, doubled []*doubledView) {
	both := *p
	both.Sections = slices.Clone(p.Sections)
	for i, v := range doubled {
		if v != nil {
			both.Sections[i] = v.s
		}
	}
	f := play.Of(&both, 0)
	for i, v := range doubled {
		if v == nil {
			continue
		}
		s := &d.Sections[i]
		for _, t := range v.vs.Twins {
			first, second := &s.Layers[t.Of], v.layerData(&v.rows[t.Layer], d.Fine)
			first.Version, second.Version = "cut", "whole"
			if v.vs.Cut {
				first.Version, second.Version = "whole", "cut"
			}
			second.Second = true
			for k := range f.Voices {
				if f.Voices[k].Name == second.Name {
					addEvents(&second, f, &f.Voices[k], i)
				}
			}
			second.Kind, second.Pan = first.Kind, first.Pan
			s.Layers = append(s.Layers, second)
		}
	}
}
