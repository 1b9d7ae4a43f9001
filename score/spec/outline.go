package spec

import (
	"fmt"
	"regexp"
	"strings"

	"tieover/score/spec/grammar"
)

// outline reads a text that the YAML library has refused line by line, as far
// as specs go, and reports what keeps it from being YAML at its own place. The
// library stops at the first mistake and often names another line.
type outline struct {
	r      *reader
	lines  []string // as the library saw them
	next   int      // index of the line that is read next
	levels []level  // the blocks that are open, outermost first
	empty  bool     // the last entry has no value yet, so a block may follow
	plain  bool     // the last value may go on in the next line
	lost   bool     // a wrong indentation was reported, and no line since then is certainly right
	keys   map[string]bool
}

// level is a block of keys, or of list entries, that begin in one column.
type level struct {
	column int // from 0
	list   bool
	first  string // its first key
}

// explain reports what it finds and whether that was anything.
func (r *reader) explain(text string) bool {
	before := len(r.problems) + r.more
	o := outline{r: r, lines: splitLines(text), keys: allKeys()}
	for o.next < len(o.lines) && len(r.problems) < maxProblems {
		line := o.lines[o.next]
		o.next++
		if s := strings.TrimSpace(line); s != "" && s[0] != '#' && s != "---" {
			o.line(line)
		}
	}
	return len(r.problems)+r.more > before
}

// fault reports a mistake in the line that was read last, or in an earlier one.
func (o *outline) fault(line, column int, hint, format string, args ...any) {
	letters := len([]rune(o.lines[line-1][:column]))
	if colon, ok := o.r.spaced[line]; ok && letters >= colon {
		letters-- // the blank that was put behind the colon
	}
	o.r.wrong(o.r.pos(line, letters+1), hint, format, args...)
}

// key is a key with its colon at the start of a text, and the value behind it.
var keyed = regexp.MustCompile(`^("[^"]*"|'[^']*'|[^\s"'\[{#][^#]*?)\s*:(?:\s+|$)`)

// line reads one entry: its hyphens, its key and its value.
func (o *outline) line(line string) {
	column := len(line) - len(strings.TrimLeft(line, " "))
	number := o.next
	if rest, ok := strings.CutPrefix(line[column:], "-"); ok && (o.keys[firstKey(rest)] || strings.HasPrefix(rest, "{")) {
		o.fault(number, column+1, "write - "+strings.TrimSpace(grammar.Shortened(rest)), "a space is missing after the hyphen")
		line = line[:column] + " " + rest
		o.levels = append(o.under(column), level{column: column, list: true})
		column, o.empty = column+1, true
	}
	dashed := false
	for strings.HasPrefix(line[column:], "- ") || line[column:] == "-" {
		o.align(number, column, true, "")
		dashed, o.empty = true, true
		rest := line[column+1:]
		column += 1 + len(rest) - len(strings.TrimLeft(rest, " "))
	}
	text := line[column:]
	key := keyed.FindString(text)
	switch {
	case text == "" || text[0] == '#':
		o.plain = false
	case key != "":
		o.align(number, column, false, firstKey(text))
		o.value(number, column+len(key))
	case dashed && o.keys[firstWord(text)]:
		o.align(number, column, false, firstWord(text))
		o.reportColon(number, column, text)
	case dashed || strings.ContainsRune("\"'[{", rune(text[0])):
		o.value(number, column)
	case !o.plain || column <= o.column():
		o.reportColon(number, column, text)
	}
}

// reportColon reports an entry without its colon.
func (o *outline) reportColon(number, column int, text string) {
	text, _, _ = strings.Cut(text, " #")
	text = strings.TrimSpace(text)
	hint := "write a key, a colon, a space and the value"
	name, value, split := strings.Cut(text, "=")
	if first, rest, _ := strings.Cut(text, " "); !split && o.keys[first] {
		name, value, split = first, rest, true
	}
	if split {
		hint = "write " + grammar.Shortened(strings.TrimSpace(name)) + ": " + grammar.Shortened(strings.TrimSpace(value))
	}
	o.fault(number, column, hint, "%q has no colon", grammar.Shortened(text))
}

// firstKey is the key that a text begins with, "" if with none.
func firstKey(text string) string {
	if m := keyed.FindStringSubmatch(text); m != nil {
		return m[1]
	}
	return ""
}

// firstWord is what a text begins with, up to a blank of any kind; it is empty
// where the text is nothing but these.
func firstWord(text string) string {
	for word := range strings.FieldsSeq(text) {
		return word
	}
	return ""
}

// column is where the innermost block begins, -1 when none is open.
func (o *outline) column() int {
	if len(o.levels) == 0 {
		return -1
	}
	return o.levels[len(o.levels)-1].column
}

// under returns the blocks that begin left of a column.
func (o *outline) under(column int) []level {
	n := len(o.levels)
	for n > 0 && o.levels[n-1].column >= column {
		n--
	}
	return o.levels[:n]
}

// align puts an entry into the block in whose column it begins, opens one where
// a value is missing, or reports that it begins in between.
func (o *outline) align(number, column int, list bool, key string) {
	closed := level{column: -1}
	for o.column() > column {
		closed = o.levels[len(o.levels)-1]
		o.levels = o.levels[:len(o.levels)-1]
	}
	n := len(o.levels)
	if o.column() == column && (list || column == 0) {
		o.lost = false
	}
	opens := true
	switch {
	case o.lost && o.column() != column:
	case n == 0 && closed.column < 0, o.column() < column && o.empty && closed.column < 0:
	case o.column() == column && o.levels[n-1].list == list:
		opens = false
	case o.column() == column && list && o.empty: // a list in the column of its key
	case o.column() == column && !list && n > 1 && o.levels[n-2].column == column:
		o.levels, opens = o.levels[:n-1], false
	case o.column() == column && !list:
		o.fault(number, column, "write - "+key+": to begin another entry, or indent it to belong to the one above", "%q stands between the entries of a list", grammar.Shortened(key))
	default:
		if closed.column < 0 && n > 0 {
			closed = o.levels[n-1]
		}
		o.reportIndent(number, column, list, closed)
	}
	if opens {
		o.levels = append(o.levels, level{column, list, key})
	}
	o.empty = false
}

// reportIndent reports an entry that begins between the columns of the blocks;
// near is the block that it is most likely meant for.
func (o *outline) reportIndent(number, column int, list bool, near level) {
	for i := len(o.levels) - 1; i >= 0 && list && !near.list; i-- {
		near = o.levels[i] // a hyphen belongs to a list
	}
	hint := fmt.Sprintf("begin it in column %d", near.column+1)
	if near.first != "" {
		hint += ", below " + grammar.Shortened(near.first)
	}
	o.fault(number, column, hint, "this line is indented like none of those above")
	o.lost = true
}
