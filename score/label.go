package score

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"tieover/score/beat"
	"tieover/score/source"
)

// checkLabels refuses a label that the piece has twice.
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
		count, _ := strings.CutPrefix(strings.TrimSuffix(mark, " cut"), s.letter)
		k, err := strconv.Atoi(count)
		if err != nil || k < 1 || k > s.meeting.count(s.Length) {
			continue
		}
		if t := s.meeting.nth(k); s.label(k, t) == mark && s.markAt(t) == "" {
			return true
		}
	}
	return false
}

// markAt returns the first mark that the settled plan has at a moment; "" for none.
func (s *Section) markAt(t beat.Time) string {
	i, _ := slices.BinarySearchFunc(s.Plan, t, func(e PlanEntry, t beat.Time) int { return cmp.Compare(e.Time, t) })
	for ; i < len(s.Plan) && s.Plan[i].Time == t; i++ {
		if mark := s.Plan[i].Mark; mark != "" {
			return mark
		}
	}
	return ""
}
