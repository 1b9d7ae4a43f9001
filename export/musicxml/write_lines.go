package musicxml

import "strconv"

// lines writes elements as they stand in a document, each on lines of its own,
// without a tree: what is inside a bar is most of a document, and where no bar
// repeats its tree was most of the work. An element is opened, filled and closed;
// whole ones are leaf, number and empty. Attributes are names and values in turn.
type lines struct {
	buf   []byte
	depth int // of the next element in the document
}

// inMeasure is the depth of a bar's children.
const inMeasure = 3

// open begins an element with others in it and returns where its content begins.
func (l *lines) open(tag string, attributes ...string) (content int) {
	l.tag(tag, attributes)
	l.buf = append(l.buf, '>')
	l.depth++
	return len(l.buf)
}

// close ends the element that was opened last.
func (l *lines) close(tag string) {
	l.depth--
	l.buf = appendLine(l.buf, l.depth)
	l.end(tag)
}

// closeFilled ends an element without attributes that is left out if nothing is
// in it; content is where that began.
func (l *lines) closeFilled(tag string, content int) {
	if len(l.buf) > content {
		l.close(tag)
		return
	}
	l.depth--
	l.buf = l.buf[:content-len("\n")-len(indent)*l.depth-len("<>")-len(tag)]
}

// empty writes an element without content.
func (l *lines) empty(tag string, attributes ...string) {
	l.tag(tag, attributes)
	l.buf = append(l.buf, "/>"...)
}

// leaf writes an element that holds only text.
func (l *lines) leaf(tag, text string, attributes ...string) {
	l.tag(tag, attributes)
	l.buf = append(l.buf, '>')
	l.buf = appendEscaped(l.buf, text, false)
	l.end(tag)
}

// number writes an element that holds a whole number.
func (l *lines) number(tag string, n int64, attributes ...string) {
	l.tag(tag, attributes)
	l.buf = append(l.buf, '>')
	l.buf = strconv.AppendInt(l.buf, n, 10)
	l.end(tag)
}

func (l *lines) tag(tag string, attributes []string) {
	l.buf = append(appendLine(l.buf, l.depth), '<')
	l.buf = append(l.buf, tag...)
	for i := 0; i < len(attributes); i += 2 {
		l.buf = appendAttribute(l.buf, attributes[i], attributes[i+1])
	}
}

func (l *lines) end(tag string) {
	l.buf = append(append(append(l.buf, "</"...), tag...), '>')
}
