package score

import (
	"fmt"
	"slices"

	"tieover/score/beat"
	"tieover/score/source"
)

// checkLabels refuses a label that stands twice in the piece.
func (p *Piece) checkLabels() source.Problems {
	var problems source.Problems
	seen := map[string]bool{}
	names := map[string]bool{}
	for _, s := range p.Sections {
		if s.Name != "" && names[s.Name] {
			problems.Add(s.Pos, fmt.Sprintf("two sections are named %q", s.Name), "give each section a name of its own, so that every label is found once")
		}
		names[s.Name] = true
		for _, e := range s.Plan {
			if e.Mark == "" {
				continue
			}
			if seen[e.Mark] || p.isLabel(e.Mark) {
				problems.Add(e.At.Pos, fmt.Sprintf("the mark %q stands twice in the piece", e.Mark), "choose another mark")
			}
			seen[e.Mark] = true
		}
	}
	return problems
}

// isLabel reports whether a realignment that no plan renames has the label.
func (p *Piece) isLabel(mark string) bool {
	for _, s := range p.Sections {
		digits, ok := cutLetter(mark, s.letter)
		if !ok || s.meeting == nil {
			continue
		}
		t := beat.Time(0)
		for k := 0; k < digits; k++ {
			if t = s.meeting.next(t); t > s.Length {
				break
			}
		}
		if t <= s.Length && s.LabelAt(digits, t) == mark && !s.plansMark(t, mark) {
			return true
		}
	}
	return false
}

func (s *Section) plansMark(t beat.Time, mark string) bool {
	return slices.ContainsFunc(s.Plan, func(e PlanEntry) bool { return e.Time == t && e.Mark == mark })
}

// cutLetter reads the count of a label with this letter.
func cutLetter(mark, letter string) (n int, ok bool) {
	if len(mark) <= len(letter) || mark[:len(letter)] != letter {
		return 0, false
	}
	for _, c := range mark[len(letter):] {
		if c < '0' || c > '9' || n > MaxBars {
			return 0, false
		}
		n = n*10 + int(c-'0')
	}
	return n, n > 0
}
