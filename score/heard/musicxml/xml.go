package musicxml

import (
	"bytes"
	"context"
	"encoding/xml"
	"errors"
	"io"
	"strings"
	"unicode"
)

// tokens reads XML with a limit on depth and on time. The decoder is strict,
// so an entity that XML itself does not define is an error; a document type
// that defines some is refused outright.
type tokens struct {
	ctx   context.Context
	dec   *xml.Decoder
	src   *source
	depth int
	count int
	own   bool // the decoder reads the source as it is, no converted copy

	known map[string]*memory // children of bars, by their name
}

// memory holds elements by their text, and how much text that is.
type memory struct {
	elements map[string]*element
	size     int
}

func newTokens(ctx context.Context, in io.Reader) *tokens {
	t := &tokens{ctx: ctx, src: newSource(in), own: true, known: map[string]*memory{}}
	t.dec = xml.NewDecoder(t.src)
	t.dec.CharsetReader = func(name string, in io.Reader) (io.Reader, error) {
		converted, err := charset(name, in)
		t.own = converted == in
		return converted, err
	}
	return t
}

// line returns the line of what was read last.
func (t *tokens) line() int {
	line, _ := t.dec.InputPos()
	return line + t.src.lines
}

// onTime fails when reading has taken too long; it looks at every 1024th token.
func (t *tokens) onTime() error {
	if t.count++; t.count%1024 == 0 && t.ctx.Err() != nil {
		return failed(t.line(), "reading took too long")
	}
	return nil
}

// next returns the next start, end or text token. The error at the end of the
// file is io.EOF.
func (t *tokens) next() (xml.Token, error) {
	for {
		if err := t.onTime(); err != nil {
			return nil, err
		}
		token, err := t.dec.RawToken()
		if err != nil {
			return nil, t.wrap(err)
		}
		switch token := token.(type) {
		case xml.StartElement:
			if t.depth++; t.depth > maxDepth {
				return nil, failed(t.line(), "elements lie more than %d deep", maxDepth)
			}
			return token, nil
		case xml.EndElement:
			t.depth--
			return token, nil
		case xml.CharData:
			return token, nil
		case xml.Directive:
			if bytes.Contains(token, []byte("<!ENTITY")) {
				return nil, failed(t.line(), "the document type defines entities; they are not read")
			}
		}
	}
}

func (t *tokens) wrap(err error) error {
	var syntax *xml.SyntaxError
	var mine *ReadError
	switch {
	case errors.Is(err, io.EOF):
		return io.EOF
	case errors.As(err, &mine):
		return mine
	case errors.As(err, &syntax):
		return failed(syntax.Line+t.src.lines, "not well-formed XML: %s", printable(syntax.Msg))
	}
	return failed(t.line(), "not well-formed XML: %s", printable(err.Error()))
}

// printable keeps what the file says out of the terminal's controls.
func printable(text string) string {
	return strings.Map(func(r rune) rune {
		if !unicode.IsPrint(r) || r == unicode.ReplacementChar {
			return '?'
		}
		return r
	}, text)
}

// tree reads the rest of the element whose start was just read.
func (t *tokens) tree(start xml.StartElement) (*element, error) {
	left := maxElements
	return t.treeWithin(start, &left)
}

func (t *tokens) treeWithin(start xml.StartElement, left *int) (*element, error) {
	if *left--; *left < 0 {
		return nil, failed(t.line(), "more than %d elements in one part of a bar", maxElements)
	}
	// RawToken reuses its buffers for text only; names and attributes are strings.
	e := &element{name: start.Name.Local, attr: start.Attr, line: t.line()}
	var text strings.Builder
	for {
		token, err := t.next()
		if err != nil {
			return nil, t.early(err)
		}
		switch token := token.(type) {
		case xml.StartElement:
			kid, err := t.treeWithin(token, left)
			if err != nil {
				return nil, err
			}
			e.kids = append(e.kids, kid)
		case xml.CharData:
			text.Write(token)
		case xml.EndElement:
			if token.Name != start.Name {
				return nil, t.mismatch(start, token)
			}
			e.text = strings.TrimSpace(text.String())
			return e, nil
		}
	}
}

// mostKnown bounds what is remembered of the children of one name, in bytes of
// text: the trees take some four times as much. mostNames bounds the names.
const (
	mostKnown = 1 << 20
	mostNames = 32
)

// memoryOf returns what is remembered of children of a name; it is emptied when
// it is full.
func (t *tokens) memoryOf(name []byte) *memory {
	m := t.known[string(name)]
	if m == nil {
		m = &memory{elements: map[string]*element{}}
		if len(t.known) < mostNames {
			t.known[string(name)] = m
		}
	}
	if m.size > mostKnown {
		clear(m.elements)
		m.size = 0
	}
	return m
}

// child returns the next child of a bar as a tree whose lines count from 1, and
// the line before it. The same text is read once. ok is false when the decoder
// must say what comes next.
func (t *tokens) child() (e *element, before int, ok bool, err error) {
	if !t.own {
		return nil, 0, false, nil
	}
	name, text, ok := t.src.child()
	if !ok {
		return nil, 0, false, nil
	}
	if err := t.onTime(); err != nil {
		return nil, 0, false, err
	}
	before = t.line() - 1
	m := t.memoryOf(name)
	e, known := m.elements[string(text)]
	if !known {
		if e, err = t.parse(text); err != nil {
			return nil, before, false, onLine(err, before)
		}
		m.elements[string(text)] = e
		m.size += len(text)
	}
	t.src.take(text)
	return e, before, true, nil
}

// parse reads one element by itself.
func (t *tokens) parse(text []byte) (*element, error) {
	one := &tokens{ctx: t.ctx, dec: xml.NewDecoder(bytes.NewReader(text)), src: &source{}, depth: t.depth}
	token, err := one.next()
	if err != nil {
		return nil, err
	}
	start, ok := token.(xml.StartElement)
	if !ok {
		return nil, failed(one.line(), "not well-formed XML")
	}
	if barChildren[start.Name.Local] == nil {
		return &element{name: start.Name.Local}, one.skip(start)
	}
	return one.tree(start)
}

// onLine moves an error whose lines count from 1 to its place in the file.
func onLine(err error, before int) error {
	var mine *ReadError
	if errors.As(err, &mine) && mine.Line > 0 {
		return &ReadError{mine.Line + before, mine.Text}
	}
	return err
}

// skip passes over the element whose start was just read.
func (t *tokens) skip(start xml.StartElement) error { return t.children(start, t.skip) }

// children calls do for every child element of the element whose start was
// just read; do must read the child to its end.
func (t *tokens) children(start xml.StartElement, do func(xml.StartElement) error) error {
	for {
		token, err := t.next()
		if err != nil {
			return t.early(err)
		}
		switch token := token.(type) {
		case xml.StartElement:
			if err := do(token); err != nil {
				return err
			}
		case xml.EndElement:
			if token.Name != start.Name {
				return t.mismatch(start, token)
			}
			return nil
		}
	}
}

func (t *tokens) mismatch(start xml.StartElement, end xml.EndElement) error {
	return failed(t.line(), "not well-formed XML: <%s> is closed by </%s>", start.Name.Local, end.Name.Local)
}

func (t *tokens) early(err error) error {
	if errors.Is(err, io.EOF) {
		return failed(t.line(), "the file ends in the middle of an element")
	}
	return err
}
