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
		text := s.tempo(e.Tempo)
		if e.Tempo.Kind != score.Steady && e.To != nil {
			text += " to " + e.To.String()
		}
		parts = append(parts, text)
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
	switch e.Hairpin {
	case score.Crescendo:
		parts = append(parts, "cresc.")
	case score.Diminuendo:
		parts = append(parts, "dim.")
	}
	return strings.Join(parts, ", ")
}

// tempo writes a tempo mark: "quarter = 132", "Lively, quarter = 132", "rit.".
func (s *setter) tempo(t *score.Tempo) string {
	switch {
	case t.Kind != score.Steady:
		return t.Words
	case t.Words != "":
		return s.spell(t.Words) + ", " + tempoWords(t)
	}
	return tempoWords(t)
}

// tempoWords writes a tempo mark without its words, or an equation of values.
func tempoWords(t *score.Tempo) string {
	if t.Old != nil && t.New != nil {
		return t.Old.Name(beat.American) + " = " + t.New.Name(beat.American)
	}
	return noteName(t.Beat, "") + " = " + t.RateText()
}

// noteName is the name of a note value; of what has none the fraction, with what it is of.
func noteName(s beat.Span, of string) string {
	if name, ok := beat.NoteName(s, beat.American); ok {
		return name
	}
	return s.String() + of
}
