package musicxml

// element is an element of the document: its text, or its children in order.
type element struct {
	tag, text  string
	attributes []attribute
	children   []*element
}

type attribute struct{ name, value string }

func (e *element) add(child *element) { e.children = append(e.children, child) }

func (e *element) set(name, value string) {
	e.attributes = append(e.attributes, attribute{name, value})
}

// appendTo writes the element on lines of its own, so deep in the document, the
// line break before it and none after it.
func (e *element) appendTo(b []byte, depth int) []byte {
	b = append(appendLine(b, depth), '<')
	b = append(b, e.tag...)
	for _, a := range e.attributes {
		b = append(append(append(b, ' '), a.name...), `="`...)
		b = append(appendEscaped(b, a.value, true), '"')
	}
	if e.text == "" && len(e.children) == 0 {
		return append(b, "/>"...)
	}
	b = appendEscaped(append(b, '>'), e.text, false)
	for _, c := range e.children {
		b = c.appendTo(b, depth+1)
	}
	if len(e.children) > 0 {
		b = appendLine(b, depth)
	}
	return append(append(append(b, "</"...), e.tag...), '>')
}

func appendLine(b []byte, depth int) []byte {
	b = append(b, '\n')
	for range depth {
		b = append(b, "  "...)
	}
	return b
}

// appendEscaped writes a text as XML has it, in an attribute also so that no
// reader takes its white space for blanks.
func appendEscaped(b []byte, text string, attribute bool) []byte {
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
