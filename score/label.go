package score

import (
	"cmp"
	"fmt"
	"iter"
	"slices"
	"strings"

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
		k, ok := cutLetter(mark, s.letter)
		if !ok || k > s.meeting.count(s.Length) {
			continue
		}
		if t := s.meeting.nth(k); s.label(k, t) == mark && !s.plansMark(t, mark) {
			return true
		}
	}
	return false
}

func (s *Section) plansMark(t beat.Time, mark string) bool {
	for e := range s.planned(t) {
		if e.Mark == mark {
			return true
		}
	}
	return false
}

// planned yields what the settled plan has for a moment.
func (s *Section) planned(t beat.Time) iter.Seq[PlanEntry] {
	return func(yield func(PlanEntry) bool) {
		i, _ := slices.BinarySearchFunc(s.Plan, t, func(e PlanEntry, t beat.Time) int { return cmp.Compare(e.Time, t) })
		for ; i < len(s.Plan) && s.Plan[i].Time == t; i++ {
			if !yield(s.Plan[i]) {
				return
			}
		}
	}
}

// cutLetter reads the count of a label with this letter, forced or natural.
func cutLetter(mark, letter string) (n int, ok bool) {
	if len(mark) <= len(letter) || mark[:len(letter)] != letter {
		return 0, false
	}
	for _, c := range strings.TrimSuffix(mark[len(letter):], " cut") {
		if c < '0' || c > '9' || n > MaxBars {
			return 0, false
		}
		n = n*10 + int(c-'0')
	}
	return n, n > 0
}
