// Package source holds places in the files a user wrote and the problems found
// there.
package source

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// Pos is a place in a file. Lines and columns count from 1, columns in
// characters, not bytes. Line 0 means the file as a whole; the zero value is
// no place.
type Pos struct {
	File         string
	Line, Column int
}

// String writes "file:line:column", or as much of it as is known.
func (p Pos) String() string {
	switch {
	case p.Line == 0:
		return p.File
	case p.Column == 0:
		return fmt.Sprintf("%s:%d", p.File, p.Line)
	}
	return fmt.Sprintf("%s:%d:%d", p.File, p.Line, p.Column)
}

// Problem is one thing that is wrong with what the user wrote.
type Problem struct {
	Pos  Pos
	Text string // what is wrong, in the spec's own words
	Hint string // what to write instead; may be empty
	Line string // the offending line of the file; may be empty
}

// String writes the problem on one line, without the offending line.
func (p Problem) String() string {
	s := p.Text
	if p.Hint != "" {
		s += "; " + p.Hint
	}
	if at := p.Pos.String(); at != "" {
		return at + ": " + s
	}
	return s
}

// Problems collects problems; the zero value is ready to use.
type Problems []Problem

// Add records a problem at a place.
func (ps *Problems) Add(at Pos, text, hint string) {
	*ps = append(*ps, Problem{Pos: at, Text: text, Hint: hint})
}

// Sort orders by file (in the order first seen), line and column; problems at
// one place keep their order.
func (ps Problems) Sort() {
	order := map[string]int{}
	for _, p := range ps {
		if _, seen := order[p.Pos.File]; !seen {
			order[p.Pos.File] = len(order)
		}
	}
	slices.SortStableFunc(ps, func(a, b Problem) int {
		return cmp.Or(order[a.Pos.File]-order[b.Pos.File], a.Pos.Line-b.Pos.Line, a.Pos.Column-b.Pos.Column)
	})
}

// Texts are the lines of the files that were read, by the files' names.
type Texts map[string][]string

// LongestLine is how many bytes a line may have to be shown with a problem.
const LongestLine = 2000

// Quote adds to problems the lines at which they are, unless these are too long to be
// of use.
func (t Texts) Quote(ps Problems) Problems {
	for i := range ps {
		p := &ps[i]
		if lines := t[p.Pos.File]; p.Pos.Line >= 1 && p.Pos.Line <= len(lines) && len(lines[p.Pos.Line-1]) <= LongestLine {
			p.Line = lines[p.Pos.Line-1]
		}
	}
	return ps
}

// Err returns the problems as an error, nil when there are none.
func (ps Problems) Err() error {
	if len(ps) == 0 {
		return nil
	}
	return problemsError{ps}
}

// Of returns the problems inside err, if it came from Err.
func Of(err error) (Problems, bool) {
	e, ok := err.(problemsError)
	return e.list, ok
}

type problemsError struct{ list Problems }

func (e problemsError) Error() string {
	lines := make([]string, len(e.list))
	for i, p := range e.list {
		lines[i] = p.String()
	}
	return strings.Join(lines, "\n")
}
