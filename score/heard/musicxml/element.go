package musicxml

import (
	"encoding/xml"
	"strings"
)

// element is a small piece of the file, held as a tree.
type element struct {
	name string
	attr []xml.Attr
	text string
	kids []*element
	line int
}

// kid returns the first child of that name, or nil.
func (e *element) kid(name string) *element {
	for _, k := range e.kids {
		if k.name == name {
			return k
		}
	}
	return nil
}

// kidText returns the text of the first child of that name, "" if there is none.
func (e *element) kidText(name string) string {
	if k := e.kid(name); k != nil {
		return k.text
	}
	return ""
}

// get returns an attribute, "" if it is not there.
func (e *element) get(name string) string { return attribute(e.attr, name) }

func attribute(attrs []xml.Attr, name string) string {
	for _, a := range attrs {
		if a.Name.Local == name {
			return strings.TrimSpace(a.Value)
		}
	}
	return ""
}
