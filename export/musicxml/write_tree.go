package musicxml

import "github.com/beevik/etree"

// appendElement writes an element on lines of its own, so deep in the document,
// the line break before it and none after it: the bytes that the library gives
// for an indented document (TestWriteGivesTheBytesOfThePlainestWay), without a walk of its own to
// indent it.
func appendElement(b []byte, e *etree.Element, depth int) []byte {
	b = append(appendLine(b, depth), '<')
	b = append(b, e.Tag...)
	for _, a := range e.Attr {
		b = appendAttribute(b, a.Key, a.Value)
	}
	if len(e.Child) == 0 {
		return append(b, "/>"...)
	}
	b = append(b, '>')
	broken := false // into lines: it has elements in it
	for _, token := range e.Child {
		switch t := token.(type) {
		case *etree.CharData:
			b = appendEscaped(b, t.Data, false)
		case *etree.Element:
			b, broken = appendElement(b, t, depth+1), true
		}
	}
	if broken {
		b = appendLine(b, depth)
	}
	return append(append(append(b, "</"...), e.Tag...), '>')
}

// indent is what a line is indented by for each element that it is in.
const indent = "  "

func appendLine(b []byte, depth int) []byte {
	b = append(b, '\n')
	for range depth {
		b = append(b, indent...)
	}
	return b
}

func appendAttribute(b []byte, name, value string) []byte {
	b = append(append(append(b, ' '), name...), `="`...)
	return append(appendEscaped(b, value, true), '"')
}

// escaped are the characters that may need to be written otherwise.
var escaped = [256]bool{'&': true, '<': true, '>': true, '"': true, '\r': true, '\t': true, '\n': true}

// appendEscaped writes a text as XML has it, in an attribute also so that no
// reader takes its white space for blanks.
func appendEscaped(b []byte, text string, attribute bool) []byte {
	plain := 0
	for plain < len(text) && !escaped[text[plain]] {
		plain++
	}
	if b = append(b, text[:plain]...); plain == len(text) {
		return b
	}
	text = text[plain:]
	for i := range len(text) {
		switch c := text[i]; {
		case c == '&':
			b = append(b, "&amp;"...)
		case c == '<':
			b = append(b, "&lt;"...)
		case c == '>' && !attribute:
			b = append(b, "&gt;"...)
		case c == '\r':
			b = append(b, "&#xD;"...)
		case c == '"' && attribute:
			b = append(b, "&quot;"...)
		case c == '\t' && attribute:
			b = append(b, "&#x9;"...)
		case c == '\n' && attribute:
			b = append(b, "&#xA;"...)
		default:
			b = append(b, c)
		}
	}
	return b
}
