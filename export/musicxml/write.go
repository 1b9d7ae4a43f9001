package musicxml

import (
	"bufio"
	"bytes"
	"fmt"
	"io"

	"tieover/layout/sheet"
)

// Write writes the sheet as one uncompressed MusicXML 4.0 document, part after
// part, in memory that does not grow with the number of bars. The same sheet
// and options always give the same bytes.
//
// It fails when w does, when an option is out of its range, and when a text of
// the sheet holds a character that XML 1.0 has no place for; what w has by
// then is not a document.
func Write(w io.Writer, laid *sheet.Sheet, o Options) error {
	if err := o.check(); err != nil {
		return err
	}
	out := bufio.NewWriterSize(w, 1<<16)
	header, err := encodeHeader(laid, o)
	if err != nil {
		return err
	}
	if _, err := out.Write(header); err != nil {
		return err
	}
	for i := range laid.Parts {
		if err := newPartWriter(laid, i, o, out).write(); err != nil {
			return err
		}
	}
	if _, err := out.WriteString(documentEnd); err != nil {
		return err
	}
	return out.Flush()
}

const documentEnd = "\n</score-partwise>\n"

// encodeHeader returns the document up to where its parts stand.
func encodeHeader(laid *sheet.Sheet, o Options) ([]byte, error) {
	root, err := header(laid, o)
	if err != nil {
		return nil, err
	}
	text := append(appendElement([]byte(documentBegin), root, 0), '\n')
	head, ok := bytes.CutSuffix(text, []byte(documentEnd))
	if !ok {
		panic("musicxml: the header does not end as every document does")
	}
	return head, nil
}

// memoSize is how many different bars, and how many different marks, a part
// keeps encoded, and memoBytes how much the bars may take. A part that never
// repeats empties its memory when full.
const (
	memoSize  = 4096
	memoBytes = 4 << 20
)

// partWriter writes one part. What equal bars share is encoded once: measures
// by their pointer, marks and the signs at a bar's edges by their content.
type partWriter struct {
	encoder
	out      *bufio.Writer
	measures map[*sheet.Measure]*encodedMeasure
	kept     int // bytes of measures
	marks    map[markKey]template
	edges    map[edgeKey][]byte
	digits   []byte // scratch
	scratch  []byte // of what is encoded

	slashed, repeated [2]bool // the bar before, by staff
}

func newPartWriter(laid *sheet.Sheet, index int, o Options, out *bufio.Writer) *partWriter {
	return &partWriter{
		encoder:  encoder{sheet: laid, part: &laid.Parts[index], index: index, options: o},
		out:      out,
		measures: map[*sheet.Measure]*encodedMeasure{},
		marks:    map[markKey]template{},
		edges:    map[edgeKey][]byte{},
	}
}

func (p *partWriter) write() error {
	fmt.Fprintf(p.out, "\n  <part id=\"%s\">", partID(p.index))
	first := true
	for bar := range p.part.Bars() {
		if err := p.bar(bar, first); err != nil {
			return err
		}
		first = false
	}
	_, err := p.out.WriteString("\n  </part>")
	return err
}

// bar writes one bar by laying the encoded pieces end to end.
func (p *partWriter) bar(b *sheet.Bar, first bool) error {
	measure, err := p.measure(b.Measure)
	if err != nil {
		return err
	}
	p.out.WriteString("\n    <measure number=\"")
	p.number(b.Number)
	if b.Printed != "" {
		p.out.WriteString("\" text=\"")
		p.digits = appendEscaped(p.digits[:0], p.text("bar number", b.Printed), true)
		p.out.Write(p.digits)
	}
	if b.Implicit {
		p.out.WriteString("\" implicit=\"yes")
	}
	p.out.WriteString("\">")
	if err := p.edge(p.leftKey(b, first)); err != nil {
		return err
	}
	done := 0
	for i := range b.Marks {
		mark := &b.Marks[i]
		text, err := p.mark(b.Measure, mark)
		if err != nil {
			return err
		}
		next := measure.place(mark.Voice, mark.Before)
		if next < done {
			panic(fmt.Sprintf("musicxml: bar %d of %s: mark %d stands before the one ahead of it", b.Number, p.part.Name, i+1))
		}
		p.out.Write(measure.buf[done:next])
		done = next
		p.out.Write(text.before)
		if text.hole {
			p.number(mark.N)
			p.out.Write(text.after)
		}
	}
	p.out.Write(measure.buf[done:])
	if err := p.edge(p.rightKey(b)); err != nil {
		return err
	}
	_, err = p.out.WriteString("\n    </measure>")
	return err
}

func (p *partWriter) number(n int) {
	p.digits = appendInt(p.digits[:0], n)
	p.out.Write(p.digits)
}
