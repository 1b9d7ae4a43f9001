package musicxml

import (
	"bufio"
	"io"
	"strconv"

	"github.com/beevik/etree"

	"tieover/layout/sheet"
)

// writePlain writes a sheet the plainest way: one tree of the whole document
// from the same elements, indented and written at once by the library. What is
// written without a tree is read into one. Write must give the same bytes.
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
				add(inTree(func(l *lines) { p.event(l, b.Measure, v, events[i]) }))
			}
		}
		add(inTree(func(l *lines) { p.voiceEnd(l, b.Measure, v) }))
	}
	add(inTree(func(l *lines) { p.tablature(l, b.Measure) }))
	add(p.edgeElements(p.rightKey(b)))
	return made
}

// inTree reads lines as elements, without what indents them.
func inTree(write func(*lines)) []*etree.Element {
	l := lines{depth: inMeasure}
	write(&l)
	doc := newDocument()
	if err := doc.ReadFromString("<measure>" + string(l.buf) + "\n    </measure>"); err != nil {
		panic(err)
	}
	doc.Unindent()
	return doc.Root().ChildElements()
}

// writeBarwise is Write without memory: each bar has a writer of its own.
func writeBarwise(w io.Writer, laid *sheet.Sheet, o Options) error {
	header, err := encodeHeader(laid, o)
	if err != nil {
		return err
	}
	out := bufio.NewWriter(w)
	out.Write(header)
	for i := range laid.Parts {
		out.WriteString("\n  <part id=\"" + partID(i) + "\">")
		last := &partWriter{}
		for b := range laid.Parts[i].Bars() {
			p := newPartWriter(laid, i, o, out)
			p.slashed, p.repeated = last.slashed, last.repeated
			if err := p.bar(b, last.out == nil); err != nil {
				return err
			}
			last = p
		}
		out.WriteString("\n  </part>")
	}
	out.WriteString(documentEnd)
	return out.Flush()
}
