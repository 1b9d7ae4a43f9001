package chart

import (
	"strings"

	"tieover/score"
	"tieover/score/beat"
)

// planWords says everything a plan entry prints, the mark excepted.
func (s *setter) planWords(e *score.PlanEntry) string {
	var parts []string
	if e.Text != "" {
		parts = append(parts, s.spell(e.Text))
	}
	if e.Chord != "" {
		parts = append(parts, s.spell(e.Chord))
	}
	if names := e.Whose(); len(parts) > 0 && names != nil {
		parts[0] = s.spell(strings.Join(names, ", ")) + ": " + parts[0]
	}
	if e.Meter != nil {
		parts = append(parts, e.Meter.String())
	}
	if e.Tempo != nil {
		parts = append(parts, s.spell(e.TempoInWords(beat.American)))
	}
	if e.Key != nil {
		parts = append(parts, e.Key.String())
	}
	if e.Fermata {
		parts = append(parts, "hold")
	}
	if e.Dynamic != "" {
		parts = append(parts, e.Dynamic)
	}
	switch e.Heard() {
	case score.Crescendo:
		parts = append(parts, "cresc.")
	case score.Diminuendo:
		parts = append(parts, "dim.")
	}
	return strings.Join(parts, ", ")
}
