package score

import (
	"tieover/score/beat"
	"tieover/score/instrument"
)

// TechniqueAt is a way of playing from a moment of the section on.
type TechniqueAt struct {
	Time beat.Time
	*instrument.Technique
}

// Techniques lists the ways of playing that the plan's texts ask of a layer, in
// order. Each holds until another of its matter, or to the section's end.
func (s *Section) Techniques(l *Layer) []TechniqueAt {
	var all []TechniqueAt
	for i := range s.Plan {
		if t, ok := s.Plan[i].Technique(l); ok {
			all = append(all, TechniqueAt{s.Plan[i].Time, t})
		}
	}
	return all
}

// Technique returns the way of playing that the entry's text asks of a layer;
// false where its instrument does not know it so, and the text is just words.
func (e *PlanEntry) Technique(l *Layer) (*instrument.Technique, bool) {
	if e.Text == "" || !e.Serves(l) {
		return nil, false
	}
	return l.Instrument.Technique(e.Text)
}

// Technical reports whether the entry's text is a way of playing to any layer of the
// section.
func (e *PlanEntry) Technical(s *Section) bool {
	for _, l := range s.Layers {
		if _, ok := e.Technique(l); ok {
			return true
		}
	}
	return false
}
