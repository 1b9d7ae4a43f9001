package spec

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"unicode"

	"go.yaml.in/yaml/v3"
	"golang.org/x/text/unicode/norm"

	"tieover/score/beat"
	"tieover/score/source"
	"tieover/score/spec/grammar"
)

// reader reads one file. Every mistake is recorded and reading goes on.
type reader struct {
	findings
	file   string
	lines  []string    // without line ends
	spaced map[int]int // by line: the column of a colon that a space was put behind

	letters   []rune // of line lettersOf
	lettersOf int
}

// findings are what is wrong, and what is probably not meant.
type findings struct {
	problems source.Problems
	more     int // problems past maxProblems
	warnings source.Problems
}

// maxProblems is how many problems of one file are shown, so that a file of
// another kind does not fill the screen; the rest is counted.
const maxProblems = 200

// full counts a problem that is not shown.
func (f *findings) full() bool {
	if len(f.problems) < maxProblems {
		return false
	}
	f.more++
	return true
}

func (f *findings) wrong(at source.Pos, hint, format string, args ...any) {
	if !f.full() {
		f.problems.Add(at, fmt.Sprintf(format, args...), hint)
	}
}

func (f *findings) warn(at source.Pos, hint, format string, args ...any) {
	f.warnings.Add(at, fmt.Sprintf(format, args...), hint)
}

// all returns the problems, and how many more there are, in the file of all that are
// shown if that is one.
func (f *findings) all() source.Problems {
	if f.more == 0 {
		return f.problems
	}
	at, text := source.Pos{File: f.problems[0].Pos.File}, fmt.Sprintf("%d more problems", f.more)
	if slices.ContainsFunc(f.problems, func(p source.Problem) bool { return p.Pos.File != at.File }) {
		at = source.Pos{}
	} else {
		text += " in this file"
	}
	f.problems.Add(at, text, "repair the first ones and try again")
	return f.problems
}

// slip records a mistake inside a scalar at its own place.
func (r *reader) slip(n *yaml.Node, s *grammar.Slip) {
	if !r.full() {
		r.problems.Add(r.inside(n, s.At), s.Text, s.Hint)
	}
}

// line returns the characters of a line. The last one asked for is kept: a
// long value is walked once for each of its mistakes.
func (r *reader) line(number int) []rune {
	if r.lettersOf != number {
		r.letters, r.lettersOf = []rune(r.lines[number-1]), number
	}
	return r.letters
}

// pos is a place in the file.
func (r *reader) pos(line, column int) source.Pos {
	return source.Pos{File: r.file, Line: line, Column: column}
}

// at is where a node begins.
func (r *reader) at(n *yaml.Node) source.Pos {
	p := r.pos(n.Line, n.Column)
	if colon, ok := r.spaced[n.Line]; ok && p.Column > colon+1 {
		p.Column--
	}
	return p
}

// inside returns the place of a byte offset of a scalar's value. It walks the
// source from the scalar's start and matches what is not blank; where the
// source is not the value itself (escapes), the scalar's start must do.
func (r *reader) inside(n *yaml.Node, offset int) source.Pos {
	start := r.at(n)
	line, column := start.Line, start.Column
	if n.Style&(yaml.DoubleQuotedStyle|yaml.SingleQuotedStyle) != 0 {
		column++
	}
	offset = min(offset, len(n.Value))
	if strings.TrimSpace(n.Value[offset:]) == "" { // past the end: point at the last character
		offset = strings.LastIndexFunc(n.Value, func(c rune) bool { return !unicode.IsSpace(c) })
		if offset < 0 {
			return start
		}
	}
	for i, want := range n.Value {
		if unicode.IsSpace(want) {
			continue
		}
		for {
			if line > len(r.lines) {
				return start
			}
			rest := r.line(line)
			for column <= len(rest) && unicode.IsSpace(rest[column-1]) {
				column++
			}
			if column <= len(rest) {
				if rest[column-1] != want {
					return start
				}
				break
			}
			line, column = line+1, 1
		}
		if i >= offset {
			return r.pos(line, column)
		}
		column++
	}
	return start
}

// text returns a scalar's text as it is written, whatever YAML makes of it.
func (r *reader) text(n *yaml.Node, what string) (string, bool) {
	switch {
	case n.Kind == yaml.SequenceNode:
		r.wrong(r.at(n), "write a single value", "%s cannot be a list", what)
	case n.Kind == yaml.MappingNode:
		r.wrong(r.at(n), "write a single value", "%s cannot be a map of keys", what)
	case isNull(n):
		r.wrong(r.at(n), "give it one, or remove the key", "%s has no value", what)
	case n.Style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0:
		r.wrong(r.at(n), "write it on one line, after the colon", "%s cannot be a block of lines", what)
	default:
		return n.Value, true
	}
	return "", false
}

// parseText reads a scalar by the rules of its grammar, and reports what is wrong in it.
func parseText[T any](r *reader, n *yaml.Node, what string, parse func(string) (T, *grammar.Slip)) (v T, ok bool) {
	s, ok := r.text(n, what)
	if !ok {
		return v, false
	}
	v, bad := parse(s)
	if bad != nil {
		r.slip(n, bad)
	}
	return v, bad == nil
}

// isNull reports a missing value: nothing, or a plain ~ or null.
func isNull(n *yaml.Node) bool {
	const quoted = yaml.DoubleQuotedStyle | yaml.SingleQuotedStyle | yaml.LiteralStyle | yaml.FoldedStyle
	return n.Kind == yaml.ScalarNode && n.Style&quoted == 0 && (n.Value == "" || n.Tag == "!!null")
}

// longest is how many characters a name may have, so that charts and page
// titles stay readable.
const longest = 120

// name reads free text of one line.
func (r *reader) name(n *yaml.Node, what string) (string, bool) {
	s, ok := r.text(n, what)
	if !ok {
		return "", false
	}
	return Name(s), r.clean(n, s, what)
}

// Name is a name as it is kept and compared: letters that look alike are
// alike, without blanks around them.
func Name(name string) string { return norm.NFC.String(strings.TrimSpace(name)) }

// clean refuses what cannot be printed on one line of a score.
func (r *reader) clean(n *yaml.Node, s, what string) bool {
	for i, c := range s {
		switch {
		case c == '\n' || c == '\r' || c == '\u0085' || c == '\u2028' || c == '\u2029':
			r.slip(n, grammar.Wrong(i, "keep it on one line", "%s has a line break in it", what))
			return false
		case c >= 0x202A && c <= 0x202E || c >= 0x2066 && c <= 0x2069:
			r.slip(n, grammar.Wrong(i, "leave out the invisible character", "%s has a character in it that reverses the reading direction (U+%04X)", what, c))
			return false
		}
	}
	if strings.TrimSpace(s) == "" {
		r.wrong(r.at(n), "write some text, or remove the key", "%s is blank", what)
		return false
	}
	if len([]rune(s)) > longest {
		r.wrong(r.at(n), "shorten it", "%s is longer than %d characters", what, longest)
		return false
	}
	return true
}

// number reads a whole number between two bounds.
func (r *reader) number(n *yaml.Node, what string, low, high int64) (int64, bool) {
	s, ok := r.text(n, what)
	if !ok {
		return 0, false
	}
	digits, negative := strings.CutPrefix(s, "-")
	value, ok := grammar.Whole(digits)
	if negative {
		value = -value
	}
	if !ok {
		r.wrong(r.at(n), fmt.Sprintf("write digits only, from %d to %d", low, high), "%s must be a whole number, not %q", what, grammar.Shortened(s))
		return 0, false
	}
	if value < low || value > high {
		r.wrong(r.at(n), fmt.Sprintf("write a number from %d to %d", low, high), "%s cannot be %s", what, grammar.Shortened(s))
		return 0, false
	}
	return value, true
}

// choice reads one of a few words and returns its index.
func (r *reader) choice(n *yaml.Node, what string, words []string) (int, bool) {
	s, ok := r.text(n, what)
	if !ok {
		return 0, false
	}
	if i := slices.Index(words, s); i >= 0 {
		return i, true
	}
	hint := cmp.Or(grammar.DidYouMean(s, words), "write "+beat.Listed(words, "or"))
	if i := slices.Index(words, strings.ToLower(s)); i >= 0 {
		hint = "write it small: " + words[i]
	} else if now := renamedWords()[s]; slices.Contains(words, now) {
		hint = "write " + now
	}
	r.wrong(r.at(n), hint, "%s cannot be %q", what, grammar.Shortened(s))
	return 0, false
}

// yes reads yes or no, or what some editors make of them.
func (r *reader) yes(n *yaml.Node, what string) (yes, ok bool) {
	if s := n.Value; n.Kind == yaml.ScalarNode && (s == "true" || s == "false") {
		return s == "true", true
	}
	i, ok := r.choice(n, what, []string{"no", "yes"})
	return i == 1, ok
}

// items returns the entries of a list, or the node itself when it is one value.
func items(n *yaml.Node) []*yaml.Node {
	if n.Kind == yaml.SequenceNode {
		return n.Content
	}
	return []*yaml.Node{n}
}

// notEmpty reports a list without entries.
func (r *reader) notEmpty(n *yaml.Node, what string) bool {
	if n.Kind == yaml.SequenceNode && len(n.Content) == 0 {
		r.wrong(r.at(n), "put at least one entry in it, or remove the key", "%s is an empty list", what)
		return false
	}
	return true
}
