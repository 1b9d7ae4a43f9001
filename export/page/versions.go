package page

import (
	"html/template"
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
	At              beat.Time
	Who, Does, Into string
	Where           []string
	Time            string
}

// gatherVersions gathers the loops that have two versions, each second one under
// its first.
func gatherVersions(p *score.Piece, index int, vs *Versions, felt []Felt) *view {
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
	return v
}

// show draws all versions.
func (vs *Versions) show(v *view) *shownVersions {
	out := &shownVersions{Chart: vs.Chart, Sheet: v.sheet([]string{vs.Chart})}
	for _, m := range []measures{wide, narrow} {
		out.Systems = append(out.Systems, v.drawnFigures(m)...)
	}
	for _, p := range vs.Partings {
		out.Partings = append(out.Partings, shownParting{p.At, p.Who, p.Does, p.Into,
			v.compared(p.At), clockTime(v.s.Seconds(p.At))})
	}
	return out
}

// drawnFigures draws the systems of a figure without a composite.
func (v *view) drawnFigures(m measures) (all []shownSystem) {
	systems := v.systems(m)
	for i := range systems {
		f := v.frame(i, systems, m)
		all = append(all, shownSystem{Size: m.name, Bars: v.sentence(func(rd *reading) string { return v.barsOf(rd, f) }), Figure: template.HTML(v.drawSystem(f))})
	}
	return all
}

// addVersions adds the second versions of a piece to the data, and says of every
// layer which version it is.
func addVersions(d *data, p *score.Piece, all []*Versions, views []*view, fine beat.Time) {
	both := *p
	both.Sections = slices.Clone(p.Sections)
	for i, vs := range all {
		if vs == nil {
			continue
		}
		both.Sections[i] = vs.Section
		s := &d.Sections[i]
		for _, t := range vs.Twins {
			s.Layers = append(s.Layers, views[i].layerData(&views[i].rows[t.Layer], fine))
		}
	}
	f := play.Of(&both, 0)
	for i, vs := range all {
		if vs == nil {
			continue
		}
		s := &d.Sections[i]
		for n, t := range vs.Twins {
			first, second := &s.Layers[t.Of], &s.Layers[len(s.Layers)-len(vs.Twins)+n]
			first.Version, second.Version = "cut", "whole"
			if vs.Cut {
				first.Version, second.Version = "whole", "cut"
			}
			second.Second = true
			for k := range f.Voices {
				if f.Voices[k].Name == second.Name {
					addEvents(second, f, &f.Voices[k], i)
				}
			}
			second.Kind, second.Pan = first.Kind, first.Pan
		}
	}
}
