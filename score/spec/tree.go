package spec

import (
	"regexp"
	"strconv"
	"strings"

	"go.yaml.in/yaml/v3"

	"tieover/score/source"
	"tieover/score/spec/grammar"
)

// parse makes the node tree and refuses what a spec does not use of YAML.
func (r *reader) parse(text string) (*yaml.Node, bool) {
	var doc yaml.Node
	if err := yaml.Unmarshal([]byte(text), &doc); err != nil {
		if !r.explain(text) {
			r.notYAML(err)
		}
		return nil, false
	}
	if doc.Kind != yaml.DocumentNode || len(doc.Content) == 0 || isNull(doc.Content[0]) {
		r.wrong(source.Pos{File: r.file}, "begin with title: and layers:", "the file is empty")
		return nil, false
	}
	if doc.Content[0].Kind == yaml.ScalarNode && r.explain(text) {
		return nil, false // the library stops in silence behind such a text
	}
	before := len(r.problems)
	r.walk(&doc)
	return doc.Content[0], len(r.problems) == before
}

// walk looks at every node once, without following aliases.
func (r *reader) walk(n *yaml.Node) {
	const hint = "write it out"
	switch {
	case n.Kind == yaml.AliasNode:
		r.wrong(r.at(n), hint, "an alias (*%s) is not allowed in a spec", grammar.Shortened(n.Value))
		return
	case n.Anchor != "":
		r.wrong(r.at(n), "remove it", "an anchor (&%s) is not allowed in a spec", grammar.Shortened(n.Anchor))
	case n.Style&yaml.TaggedStyle != 0:
		r.wrong(r.at(n), "remove it", "a tag (%s) is not allowed in a spec", grammar.Shortened(n.Tag))
	}
	if n.Kind == yaml.ScalarNode {
		r.characters(n)
	}
	r.checkComment(n)
	for i, child := range n.Content {
		if n.Kind == yaml.MappingNode && i%2 == 0 && child.Value == "<<" && child.Kind == yaml.ScalarNode {
			r.wrong(r.at(child), hint, "a merge (<<) is not allowed in a spec")
			continue
		}
		r.walk(child)
	}
}

// characters refuses escaped characters that XML cannot hold.
func (r *reader) characters(n *yaml.Node) {
	for _, c := range n.Value {
		if !isXML(c) || c >= 0x7F && c < 0xA0 && c != '\u0085' {
			r.wrong(r.at(n), "leave it out", "a character that no score can hold (U+%04X)", c)
			return
		}
	}
}

// checkComment reports a comment whose # touches the text before or after it: YAML
// drops "#4" from "F #4" without a word.
func (r *reader) checkComment(n *yaml.Node) {
	comment := n.LineComment
	if len(comment) < 2 || comment[0] != '#' || strings.ContainsRune(" \t#!", rune(comment[1])) {
		return
	}
	first, _, _ := strings.Cut(comment, "\n")
	const near = 50 // lines from a value to the comment that belongs to it
	for line := n.Line; line <= min(len(r.lines), n.Line+near); line++ {
		if at := strings.Index(r.lines[line-1], first); at >= 0 {
			column := len([]rune(r.lines[line-1][:at])) + 1
			r.wrong(r.pos(line, column),
				"quote the text if # belongs to it", "a comment needs a space after #")
			return
		}
	}
}

var yamlPlace = regexp.MustCompile(`^yaml: (?:line (\d+): )?(?s:(.*))$`)

// notYAML words an error of the YAML library, which names a line at best, and
// that not always exactly.
func (r *reader) notYAML(err error) {
	at, reason := source.Pos{File: r.file, Line: 1}, err.Error() // the library leaves out line 1
	if m := yamlPlace.FindStringSubmatch(reason); m != nil {
		reason = m[2]
		if n, err := strconv.Atoi(m[1]); err == nil {
			at.Line = min(n, len(r.lines))
			for at.Line < len(r.lines) && strings.TrimSpace(r.lines[at.Line-1]) == "" {
				at.Line++ // a blank line is never the mistake
			}
		}
	}
	const escape = `write \\ for a backslash, or put the text in '…'`
	mentions := func(part string) bool { return strings.Contains(reason, part) }
	hint := "look for a missing quote, bracket or indent"
	switch {
	case mentions("unknown escape character"):
		r.wrong(at, escape, "a backslash before something that YAML does not escape")
		return
	case mentions("expected hexdecimal number"), mentions("invalid Unicode character escape"):
		r.wrong(at, escape, "an escape that stands for no character")
		return
	case mentions("exceeded max depth"):
		r.wrong(at, "close them, or put the text in quotes", "too many brackets inside one another")
		return
	case mentions("block sequence entries are not allowed"):
		hint = "quote a value that begins with -"
	case mentions("mapping values are not allowed"):
		hint = "quote text that has a colon, and indent all keys of a map alike"
	case mentions("cannot start any token"):
		hint = "put the text in quotes"
	}
	r.wrong(at, hint, "here, or a little above, something is not YAML")
}
