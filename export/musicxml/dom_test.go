package musicxml

import (
	"bytes"
	"encoding/xml"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// dom is a document as the standard library reads it, for questions about what
// was written. It shares no code with the writer.
type dom struct {
	XMLName  xml.Name
	Attrs    []xml.Attr `xml:",any,attr"`
	Children []*dom     `xml:",any"`
	Text     string     `xml:",chardata"`
}

func parse(t testing.TB, doc []byte) *dom {
	t.Helper()
	d := &dom{}
	decoder := xml.NewDecoder(bytes.NewReader(doc))
	require.NoError(t, decoder.Decode(d))
	return d
}

func (d *dom) name() string { return d.XMLName.Local }

func (d *dom) attr(name string) string {
	for _, a := range d.Attrs {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

// all returns the descendants with the given name in document order.
func (d *dom) all(name string) []*dom {
	var found []*dom
	for _, c := range d.Children {
		if c.name() == name {
			found = append(found, c)
		}
		found = append(found, c.all(name)...)
	}
	return found
}

// text returns the text of the first descendant of that name, "" if none.
func (d *dom) text(name string) string {
	if found := d.all(name); len(found) > 0 {
		return found[0].Text
	}
	return ""
}

// texts returns the texts of all descendants of that name.
func (d *dom) texts(name string) []string {
	var made []string
	for _, f := range d.all(name) {
		made = append(made, f.Text)
	}
	return made
}

// shape writes an element on one line: <a x="1"><b>text</b></a>, without the
// white space between elements.
func (d *dom) shape() string {
	var b strings.Builder
	b.WriteString("<" + d.name())
	for _, a := range d.Attrs {
		b.WriteString(" " + a.Name.Local + `="` + a.Value + `"`)
	}
	if len(d.Children) == 0 && d.Text == "" {
		return b.String() + "/>"
	}
	b.WriteString(">")
	if len(d.Children) == 0 {
		b.WriteString(d.Text)
	}
	for _, c := range d.Children {
		b.WriteString(c.shape())
	}
	return b.String() + "</" + d.name() + ">"
}

// part returns the bars of the part with that index.
func (d *dom) part(index int) []*dom { return d.all("part")[index].all("measure") }

// shapes returns the shapes of the descendants with that name.
func (d *dom) shapes(name string) []string {
	var made []string
	for _, f := range d.all(name) {
		made = append(made, f.shape())
	}
	return made
}

// xml writes the element as a document again.
func (d *dom) xml() string {
	var b strings.Builder
	d.writeXML(&b)
	return b.String()
}

func (d *dom) writeXML(b *strings.Builder) {
	b.WriteString("<" + d.name())
	for _, a := range d.Attrs {
		b.WriteString(" " + a.Name.Local + `="`)
		_ = xml.EscapeText(b, []byte(a.Value))
		b.WriteString(`"`)
	}
	b.WriteString(">")
	if len(d.Children) == 0 {
		_ = xml.EscapeText(b, []byte(d.Text))
	}
	for _, c := range d.Children {
		c.writeXML(b)
	}
	b.WriteString("</" + d.name() + ">")
}
