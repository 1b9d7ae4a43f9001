package musicxml

import (
	"io"
	"strconv"

	"github.com/beevik/etree"

	"tieover/layout/sheet"
)

// writePlain writes a sheet the plainest way: one tree of the whole document
// from the same elements, indented and written at once. Write must give the
// same bytes.
func writePlain(w io.Writer, laid *sheet.Sheet, o Options) error {
	head, err := header(laid, o)
	if err != nil {
		return err
	}
	doc := newDocument()
	doc.CreateProcInst("xml", `version="1.0" encoding="UTF-8"`)
	doc.CreateDirective(`DOCTYPE score-partwise PUBLIC "-//Recordare//DTD MusicXML 4.0 Partwise//EN" "http://www.musicxml.org/dtds/partwise.dtd"`)
	root := head
	doc.AddChild(root)
	for i := range laid.Parts {
		part := root.CreateElement("part")
		part.CreateAttr("id", partID(i))
		p := newPartWriter(laid, i, o, nil)
		first := true
		for b := range laid.Parts[i].Bars() {
			part.AddChild(p.plainMeasure(b, first))
			first = false
		}
		if p.err != nil {
			return p.err
		}
	}
	doc.Indent(2)
	_, err = doc.WriteTo(w)
	return err
}

func newDocument() *etree.Document {
	doc := etree.NewDocument()
	doc.WriteSettings = etree.WriteSettings{CanonicalText: true, CanonicalAttrVal: true}
	return doc
}

// plainMeasure builds one bar without remembering anything.
func (p *partWriter) plainMeasure(b *sheet.Bar, first bool) *etree.Element {
	made := with(elem("measure"), "number", strconv.Itoa(b.Number))
	if b.Printed != "" {
		made.CreateAttr("text", b.Printed)
	}
	if b.Implicit {
		made.CreateAttr("implicit", "yes")
	}
	add := func(elements []*etree.Element) {
		for _, e := range elements {
			made.AddChild(e)
		}
	}
	add(p.edgeElements(p.leftKey(b, first)))
	marks := b.Marks
	for v := range b.Measure.Voices {
		events := b.Measure.Voices[v].Events
		for i := range len(events) + 1 {
			for len(marks) > 0 && marks[0].Voice == v && marks[0].Before == i {
				add(p.markElements(b.Measure, &marks[0], strconv.Itoa(marks[0].N)))
				marks = marks[1:]
			}
			if i < len(events) {
				add(p.event(b.Measure, v, events[i]))
			}
		}
		add(p.voiceEnd(b.Measure, v))
	}
	add(p.edgeElements(p.rightKey(b)))
	return made
}

// writeBarwise is writePlain with one tree a bar, so that memory stays small:
// the same encoder with its memory switched off.
func writeBarwise(w io.Writer, laid *sheet.Sheet, o Options) error {
	header, err := encodeHeader(laid, o)
	if err != nil {
		return err
	}
	out := errWriter{w: w}
	out.write(header)
	for i := range laid.Parts {
		out.write([]byte("\n  <part id=\"" + partID(i) + "\">"))
		p := newPartWriter(laid, i, o, nil)
		first := true
		for b := range laid.Parts[i].Bars() {
			text, _ := encodeMeasureElement(p.plainMeasure(b, first))
			out.write(text)
			first = false
		}
		out.write([]byte("\n  </part>"))
	}
	out.write([]byte(documentEnd))
	return out.err
}

// encodeMeasureElement encodes a whole measure where it stands in a part.
func encodeMeasureElement(measure *etree.Element) ([]byte, error) {
	doc := newDocument()
	doc.CreateElement("score-partwise").CreateElement("part").AddChild(measure)
	doc.Indent(2)
	text, err := doc.WriteToBytes()
	if err != nil {
		return nil, err
	}
	const before, after = "<score-partwise>\n  <part>", "\n  </part>\n</score-partwise>\n"
	return text[len(before) : len(text)-len(after)], nil
}

type errWriter struct {
	w   io.Writer
	err error
}

func (w *errWriter) write(b []byte) {
	if w.err == nil {
		_, w.err = w.w.Write(b)
	}
}
