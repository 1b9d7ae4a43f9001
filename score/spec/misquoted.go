package spec

import (
	"iter"
	"regexp"
	"strings"

	"tieover/score/spec/grammar"
)

const inQuotes = "put the text in quotes"

// blockHead begins a block of lines, which reaches as far as it is indented.
var blockHead = regexp.MustCompile(`^[|>][-+0-9]*\s*(#.*)?$`)

// value looks at what follows a key or a hyphen.
func (o *outline) value(number, column int) {
	line := o.lines[number-1]
	text := strings.TrimRight(line[column:], " \t")
	o.empty = text == "" || text[0] == '#'
	o.plain = false
	if o.empty {
		return
	}
	switch first := text[0]; {
	case first == '"' || first == '\'':
		o.quoted(number, column)
	case first == '[' || first == '{':
		o.flow(number, column)
	case blockHead.MatchString(text):
		inner := o.column()
		for o.next < len(o.lines) && (strings.TrimSpace(o.lines[o.next]) == "" || indentOf(o.lines[o.next]) > inner) {
			o.next++
		}
	case strings.IndexByte("@`%*&!|>,]}", first) >= 0, text == "-", text == "?", strings.HasPrefix(text, "- "), strings.HasPrefix(text, "? "):
		o.fault(number, column, inQuotes, "a value cannot begin with %q", string(first))
	default:
		o.plain = true
		o.colon(number, column, text)
	}
}

func indentOf(line string) int { return len(line) - len(strings.TrimLeft(line, " ")) }

// colon reports a colon and a blank inside unquoted text.
func (o *outline) colon(number, column int, text string) {
	text, _, _ = strings.Cut(text, " #")
	at := strings.Index(text+" ", ": ")
	if at < 0 {
		return
	}
	hint := inQuotes
	if before, after := text[:at], strings.TrimSpace(text[at+1:]); ratioEnd.MatchString(before) && ratioStart.MatchString(after) {
		hint = "write a ratio without a blank, as in 3:2"
	}
	o.fault(number, column+at, hint, "a colon and a blank inside a text")
}

var (
	ratioEnd   = regexp.MustCompile(`[0-9]$`)
	ratioStart = regexp.MustCompile(`^[0-9]`)
)

// quoted looks for the end of a quoted text, perhaps in a later line.
func (o *outline) quoted(number, column int) {
	quote := o.lines[number-1][column]
	from := column + 1
	for at, line := range o.valueLines(number) {
		if end := closingQuote(line, from, quote); end >= 0 {
			o.after(at, end, string(quote))
			return
		}
		from = 0
	}
	o.fault(number, column, "close it with "+string(quote), "a quote without its end")
}

// closingQuote returns the place of the quote that ends a text, or -1.
func closingQuote(line string, from int, quote byte) int {
	for i := from; i < len(line); i++ {
		switch {
		case quote == '"' && line[i] == '\\':
			i++
		case line[i] != quote:
		case quote == '\'' && strings.HasPrefix(line[i+1:], "'"):
			i++
		default:
			return i
		}
	}
	return -1
}

// valueLines yields the lines that may belong to a value that begins in a line, with
// their numbers. They are passed over unless the value ends before.
func (o *outline) valueLines(number int) iter.Seq2[int, string] {
	return func(yield func(int, string) bool) {
		for at := number; at <= len(o.lines); at++ {
			line := o.lines[at-1]
			if at > number && strings.TrimSpace(line) != "" && indentOf(line) <= o.column() {
				return
			}
			o.next = at
			if !yield(at, line) {
				return
			}
		}
	}
}

// after reports what follows a closing quote or bracket.
func (o *outline) after(number, end int, sign string) {
	line := o.lines[number-1]
	rest := strings.TrimLeft(line[end+1:], " \t")
	if rest == "" || rest[0] == '#' {
		return
	}
	text, _, _ := strings.Cut(rest, " #")
	hint := "quote the value as a whole, or remove what follows"
	if sign == "'" {
		hint = "write an apostrophe inside '…' twice, or use \"…\""
	}
	o.fault(number, len(line)-len(rest), hint, "%q behind the closing %s", grammar.Shortened(strings.TrimSpace(text)), sign)
}

// flow looks for the end of a [list] or {map}, perhaps in a later line.
func (o *outline) flow(number, column int) {
	var open []byte // the brackets that are still wanted
	from := column
	for at, line := range o.valueLines(number) {
		token := true // a quote would begin a text here
		for i := from; i < len(line); i++ {
			switch c := line[i]; {
			case c == '#' && i > 0 && line[i-1] == ' ':
				i = len(line)
			case (c == '"' || c == '\'') && token:
				if i = closingQuote(line, i+1, c); i < 0 {
					return // a quote over lines in a list is not for us
				}
				token = false
			case c == '[' && token, c == '{' && token:
				open = append(open, c+2) // ] and } come two characters after [ and {
			case (c == ']' || c == '}') && c != open[len(open)-1]:
				o.fault(at, i, "write "+string(open[len(open)-1])+" there, or repair the brackets before it", "%q closes what another bracket opened", string(c))
				return
			case c == ']' || c == '}':
				if open = open[:len(open)-1]; len(open) == 0 {
					o.after(at, i, string(c))
					return
				}
			case c != ' ':
				token = c == ',' || c == ':'
			}
		}
		from = 0
	}
	o.fault(number, column, "close it with "+string(open[0]), "a bracket without its end")
}
