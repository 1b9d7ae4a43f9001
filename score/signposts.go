package score

import (
	"iter"
	"slices"

	"tieover/score/beat"
	"tieover/score/peek"
)

// Signpost is a moment of a section that has a name.
type Signpost struct {
	At        beat.Time
	Text      string
	Kind      SignpostKind
	OnBarline bool
	Closes    bool // it stands at the section's end
}

// SignpostKind says what a signpost names. At one moment signposts stand in
// this order.
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

// Signposts walks all that has a name in the section, in time order, up to and
// including what stands exactly on its end. Nothing stands twice: a realignment
// that the plan renames is one signpost.
func (s *Section) Signposts() iter.Seq[Signpost] {
	return func(yield func(Signpost) bool) {
		marks := peek.Of(s.marks())
		defer marks.Stop()
		at, here := beat.Time(-1), []string(nil) // what stands at the moment at hand
		stand := func(p Signpost) bool {
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
		if title := s.Title(); title != "" && !stand(Signpost{Text: title, Kind: Opens}) {
			return
		}
		for r := range s.RealignmentTimes() {
			for m := range marks.While(func(m Signpost) bool { return m.At < r.Time }) {
				if !stand(m) {
					return
				}
			}
			if r.Label != "" && !stand(Signpost{At: r.Time, Text: r.Label, Kind: Realigns}) {
				return
			}
		}
		for m := range marks.While(func(Signpost) bool { return true }) {
			if !stand(m) {
				return
			}
		}
	}
}

// marks walks the plan's own.
func (s *Section) marks() iter.Seq[Signpost] {
	return func(yield func(Signpost) bool) {
		for i := range s.Plan {
			if e := &s.Plan[i]; e.Mark != "" && !yield(Signpost{At: e.Time, Text: e.Mark, Kind: Marked}) {
				return
			}
		}
	}
}
