// Package lint holds a MusicXML document against the laws that the schema
// cannot state: full bars, values that last as long as they look, closed
// beams, ties, tuplets and lines, identifiers that exist. It is for tests and
// shares no code with the writer.
package lint

import (
	"encoding/xml"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
)

// Allowance is something that is a fault unless it was asked for.
type Allowance int

// BeamsOverBarlines lets a beam begin in one bar and end in a later one.
const BeamsOverBarlines Allowance = iota

// Check reads an uncompressed partwise document and returns what is wrong with
// it, each finding with its part and bar, in document order; nil when nothing
// is. The error is for what is no XML at all.
func Check(document io.Reader, allowed ...Allowance) (findings []string, err error) {
	root := &node{}
	if err := xml.NewDecoder(document).Decode(root); err != nil {
		return nil, err
	}
	c := &checker{single: len(root.all("part")) == 1, sounds: map[string]string{},
		overBarlines: slices.Contains(allowed, BeamsOverBarlines)}
	c.header(root)
	c.parts(root)
	return c.findings, nil
}

// checker gathers findings while it walks a document.
type checker struct {
	findings []string
	where    string
	single   bool              // the document has one part
	sounds   map[string]string // the part of each score-instrument

	overBarlines bool
}

func (c *checker) report(format string, args ...any) {
	c.findings = append(c.findings, c.where+fmt.Sprintf(format, args...))
}

// turn opens what is named by key, or closes it on stop, and reports what is so
// already, and what says neither.
func (c *checker) turn(open map[string]bool, key, kind string) {
	opens := kind != "stop"
	if open[key] == opens || !slices.Contains(turns, kind) {
		c.report("%s: %s out of turn", key, kind)
	}
	open[key] = opens
}

// turns are the types of what opens and closes: slurs, part groups, wedges, brackets.
var turns = []string{"start", "stop", "crescendo", "diminuendo"}

// allEnd reports what is still open.
func (c *checker) allEnd(open map[string]bool) {
	for key, is := range open {
		if is {
			c.report("%s never ends", key)
		}
	}
}

// node is an element with its children.
type node struct {
	XMLName  xml.Name
	Attrs    []xml.Attr `xml:",any,attr"`
	Children []*node    `xml:",any"`
	Text     string     `xml:",chardata"`
}

func (n *node) name() string { return n.XMLName.Local }

// attr returns an attribute, "" when there is none or no element.
func (n *node) attr(name string) string {
	if n == nil {
		return ""
	}
	for _, a := range n.Attrs {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

// all returns the children of that name.
func (n *node) all(name string) []*node {
	var found []*node
	for _, c := range n.Children {
		if c.name() == name {
			found = append(found, c)
		}
	}
	return found
}

// inside returns the children of that name of all children called parent.
func (n *node) inside(parent, name string) []*node {
	var found []*node
	for _, c := range n.all(parent) {
		found = append(found, c.all(name)...)
	}
	return found
}

// at follows a path of first children; nil when there is none.
func (n *node) at(path ...string) *node {
	for _, name := range path {
		found := n.all(name)
		if len(found) == 0 {
			return nil
		}
		n = found[0]
	}
	return n
}

func (n *node) has(path ...string) bool { return n.at(path...) != nil }

// text returns the text at a path, "" when there is none.
func (n *node) text(path ...string) string {
	if found := n.at(path...); found != nil {
		return strings.TrimSpace(found.Text)
	}
	return ""
}

// whole reads the whole number at a path.
func (n *node) whole(path ...string) (int64, bool) {
	v, err := strconv.ParseInt(n.text(path...), 10, 64)
	return v, err == nil
}

func (c *checker) header(root *node) {
	if root.name() != "score-partwise" || root.attr("version") != "4.0" {
		c.report("the root is %s version %q, not score-partwise 4.0", root.name(), root.attr("version"))
	}
	if !root.has("movement-title") {
		c.report("no title")
	}
	ids := map[string]bool{}
	var listed, written []string
	groups := map[string]bool{}
	for _, entry := range root.at("part-list").Children {
		switch entry.name() {
		case "part-group":
			c.turn(groups, "part group "+entry.attr("number"), entry.attr("type"))
		case "score-part":
			listed = append(listed, entry.attr("id"))
			c.scorePart(entry, ids)
		}
	}
	c.allEnd(groups)
	for _, p := range root.all("part") {
		written = append(written, p.attr("id"))
	}
	if !slices.Equal(listed, written) {
		c.report("parts %v are listed, %v written", listed, written)
	}
}

func (c *checker) scorePart(p *node, ids map[string]bool) {
	id := p.attr("id")
	unique := func(id string) {
		if id == "" || id[0] >= '0' && id[0] <= '9' || ids[id] {
			c.report("identifier %q is empty, begins with a digit or is used twice", id)
		}
		ids[id] = true
	}
	unique(id)
	if p.text("part-name") == "" {
		c.report("%s has no name", id)
	}
	for _, i := range p.all("score-instrument") {
		unique(i.attr("id"))
		c.sounds[i.attr("id")] = id
		if i.text("instrument-sound") == "" {
			c.report("%s: instrument %s has no sound", id, i.attr("id"))
		}
	}
	played := map[string]bool{}
	for _, m := range p.all("midi-instrument") {
		if c.sounds[m.attr("id")] != id {
			c.report("%s: midi-instrument %s is none of its instruments", id, m.attr("id"))
		}
		played[m.attr("id")] = true
	}
	if n := len(p.all("score-instrument")); n == 0 || n != len(played) {
		c.report("%s has %d instruments, %d of them with a MIDI sound", id, n, len(played))
	}
}

func (c *checker) parts(root *node) {
	var first []frame
	for i, p := range root.all("part") {
		frames := c.part(p)
		if i == 0 {
			first = frames
			continue
		}
		c.where = p.attr("id") + ": "
		if len(frames) != len(first) {
			c.report("%d bars, but %d in the first part", len(frames), len(first))
			continue
		}
		for k := range frames {
			if frames[k] != first[k] {
				c.report("bar %s is framed as %+v, in the first part as %+v", frames[k].number, frames[k], first[k])
			}
		}
	}
}

// frame is what a bar must have in common with the same bar of other parts.
type frame struct {
	number, implicit  string
	time              string // a signature that is printed here
	left, right       string // barlines
	newSystem, newOne string // breaks
}

func frameOf(measure *node) frame {
	f := frame{number: measure.attr("number"), implicit: measure.attr("implicit")}
	for _, a := range measure.all("attributes") {
		for _, t := range a.all("time") {
			f.time += signature(t)
		}
	}
	for _, b := range measure.all("barline") {
		look := b.text("bar-style")
		if r := b.at("repeat"); r != nil {
			look += " " + r.attr("direction") + r.attr("times")
		}
		switch b.attr("location") {
		case "left":
			f.left = look
		case "right":
			f.right = look
		}
	}
	for _, p := range measure.all("print") {
		f.newSystem, f.newOne = p.attr("new-system"), p.attr("new-page")
	}
	return f
}

// signature writes a time signature as "3+2/8 1/4".
func signature(t *node) string {
	var made []string
	for i, b := range t.all("beats") {
		made = append(made, b.Text+"/"+t.all("beat-type")[i].Text)
	}
	return strings.Join(made, " ")
}
