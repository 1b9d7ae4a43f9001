package score

import (
	"iter"
	"slices"

	"tieover/score/beat"
)

// Signpost is a moment of a section that has a name.
type Signpost struct {
	At        beat.Time
	Text      string
	Kind      SignpostKind
	OnBarline bool
	Closes    bool // it is at the section's end
}

// SignpostKind says what a signpost names. At one moment signposts come in this
// order.
type SignpostKind int

const (
	Opens    SignpostKind = iota // the section's start: its title
	Realigns                     // a realignment, under its label or the plan's mark for it
	Marked                       // a mark of the plan elsewhere
)

// Title is what a section is called: its name, or its letter where the piece has
// several sections and it has no name, or "".
func (s *Section) Title() string {
	if s.Name == "" && (s.FirstBar > 1 || !s.Last) {
		return s.letter
	}
	return s.Name
}

// Signposts walks all that has a name in the section, in time order, its end
// included. Nothing comes twice: a realignment that the plan renames is one signpost.
func (s *Section) Signposts() iter.Seq[Signpost] {
	return func(yield func(Signpost) bool) {
		at, here := beat.Time(-1), []string(nil) // the names at the moment of the last one
		put := func(p Signpost) bool {
			if p.At != at {
				at, here = p.At, here[:0]
			}
			if slices.Contains(here, p.Text) {
				return true
			}
			here = append(here, p.Text)
			p.OnBarline, p.Closes = s.OnBarline(p.At), p.At == s.Length
			return yield(p)
		}
		plan := s.Plan
		marksBefore := func(t beat.Time) bool {
			for ; len(plan) > 0 && plan[0].Time < t; plan = plan[1:] {
				if e := &plan[0]; e.Mark != "" && !put(Signpost{At: e.Time, Text: e.Mark, Kind: Marked}) {
					return false
				}
			}
			return true
		}
		if title := s.Title(); title != "" && !put(Signpost{Text: title, Kind: Opens}) {
			return
		}
		for r := range s.RealignmentTimes() {
			if !marksBefore(r.Time) || r.Label != "" && !put(Signpost{At: r.Time, Text: r.Label, Kind: Realigns}) {
				return
			}
		}
		marksBefore(never)
	}
}
