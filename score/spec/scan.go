package spec

import (
	"bytes"
	"regexp"
	"strings"
	"unicode/utf8"

	"tieover/score/source"
	"tieover/score/spec/grammar"
)

// MaxSize is how many bytes a spec may have.
const MaxSize = 1 << 20

// scan looks at the raw text before any YAML is read and reports the slips
// that the YAML library reports badly or not at all. It returns the text to
// parse; ok is false when parsing makes no sense.
func (r *reader) scan(text []byte) (clean string, ok bool) {
	whole := source.Pos{File: r.file}
	switch {
	case bytes.HasPrefix(text, []byte("<?xml")), bytes.HasPrefix(text, []byte("MThd")), bytes.HasPrefix(text, []byte("PK\x03\x04")):
		r.wrong(whole, "name the section spec here; find and verify read scores", "the file is a score or sound, not a section spec")
		return "", false
	case len(text) > MaxSize:
		r.wrong(whole, "split the piece into several files", "the file has more than %d bytes (1 MiB)", MaxSize)
		return "", false
	case isWide(text):
		r.wrong(whole, "save it as UTF-8", "the file is UTF-16 or UTF-32, not UTF-8")
		return "", false
	case !utf8.Valid(text):
		r.wrong(r.badByte(text), "save the file as UTF-8", "not UTF-8 text")
		return "", false
	}
	s := strings.TrimPrefix(string(text), "\uFEFF")
	r.lines = splitLines(s)
	before := len(r.problems)
	for i, line := range r.lines {
		r.scanCharacters(i+1, line)
		r.scanMarks(i+1, line)
		if at := tabIndent(line); at >= 0 {
			r.wrong(r.pos(i+1, at+1), "indent with spaces", "a tab in the indentation")
		}
	}
	if len(r.problems) > before {
		return "", false
	}
	return r.spaceColons(s), true
}

// isWide recognizes the first bytes of UTF-16 and UTF-32.
func isWide(text []byte) bool {
	if len(text) < 2 {
		return false
	}
	mark := text[0] == 0xFE && text[1] == 0xFF || text[0] == 0xFF && text[1] == 0xFE
	return mark || text[0] == 0 || text[1] == 0
}

// badByte is the place of the first byte that is not UTF-8.
func (r *reader) badByte(text []byte) source.Pos {
	valid := 0
	for valid < len(text) {
		c, size := utf8.DecodeRune(text[valid:])
		if c == utf8.RuneError && size == 1 {
			break
		}
		valid += size
	}
	lines := splitLines(string(text[:valid]))
	return r.pos(len(lines), utf8.RuneCountInString(lines[len(lines)-1])+1)
}

// splitLines splits at LF, CR LF and CR, as YAML does.
func splitLines(s string) []string {
	s = strings.ReplaceAll(s, "\r\n", "\n")
	return strings.Split(strings.ReplaceAll(s, "\r", "\n"), "\n")
}

// scanCharacters refuses raw characters that are invisible, start a line for
// YAML but not for an editor, or cannot be in XML.
func (r *reader) scanCharacters(number int, line string) {
	column := 0
	for _, c := range line {
		column++
		at := r.pos(number, column)
		switch {
		case c == '\uFEFF':
			r.wrong(at, "delete it; it may only begin the file", "a byte order mark (U+FEFF) inside the text")
		case c == '\u0085' || c == '\u2028' || c == '\u2029':
			r.wrong(at, "use an ordinary line break", "an unusual line break (U+%04X)", c)
		case c != '\t' && !isXML(c) || c >= 0x7F && c < 0xA0:
			r.wrong(at, "delete it", "a control character (U+%04X)", c)
		}
	}
}

// isXML reports whether XML 1.0 allows the character.
func isXML(c rune) bool {
	return c == '\t' || c == '\n' || c == '\r' || c >= 0x20 && c <= 0xD7FF || c >= 0xE000 && c <= 0xFFFD || c >= 0x10000
}

// scanMarks refuses what would begin another YAML document. One --- before
// everything else is usual and harmless.
func (r *reader) scanMarks(number int, line string) {
	at := r.pos(number, 1)
	bare, _, _ := strings.Cut(line, " #")
	bare = strings.TrimRight(bare, " \t")
	switch {
	case strings.HasPrefix(line, "%"):
		r.wrong(at, "remove this line", "a line that begins with %% is an instruction to YAML")
	case bare == "---" && r.onlyComments(number-1):
	case bare == "---" || bare == "...":
		r.wrong(at, "one file holds one section; give several files to one command", "%q begins another document", bare)
	case strings.HasPrefix(line, "--- ") || strings.HasPrefix(line, "... "):
		r.wrong(at, "indent or quote it", "a line that begins with %q ends the document", line[:3])
	}
}

func (r *reader) onlyComments(count int) bool {
	for _, line := range r.lines[:count] {
		if s := strings.TrimSpace(line); s != "" && s[0] != '#' && s[0] != '%' {
			return false
		}
	}
	return true
}

// tabIndent returns the column, from 0, of a tab before the first character
// of the line that is not blank, or behind the hyphen of a list; or -1.
func tabIndent(line string) int {
	rest := strings.TrimLeft(line, " \t")
	if rest == "" || rest[0] == '#' {
		return -1
	}
	for strings.HasPrefix(rest, "- ") || strings.HasPrefix(rest, "-\t") {
		rest = strings.TrimLeft(rest[1:], " \t")
	}
	return strings.Index(line[:len(line)-len(rest)], "\t")
}

var gluedKey = regexp.MustCompile(`^(\s*(?:- +)*)([a-z][a-z-]*):([^\s:/].*)$`)

// spaceColons reports keys whose colon has no space after it and puts the space
// in, so that reading can go on.
func (r *reader) spaceColons(s string) string {
	keys := allKeys()
	r.spaced = map[int]int{}
	lines := make([]string, len(r.lines))
	for i, line := range r.lines {
		lines[i] = line
		m := gluedKey.FindStringSubmatch(line)
		if m == nil || !keys[m[2]] {
			continue
		}
		column := len(m[1]) + len(m[2]) + 1
		r.wrong(r.pos(i+1, column),
			"write "+m[2]+": "+grammar.Shortened(m[3]), "a space is missing after the colon of %q", m[2])
		lines[i] = m[1] + m[2] + ": " + m[3]
		r.spaced[i+1] = column
	}
	if len(r.spaced) == 0 {
		return s
	}
	return strings.Join(lines, "\n")
}

// allKeys holds the keys of all maps.
func allKeys() map[string]bool {
	keys := map[string]bool{}
	for _, table := range KeyTables() {
		for _, key := range table.Keys {
			keys[key] = true
		}
	}
	return keys
}
